at 2026-11-25 06:59
+1m
ravi in E1: fuel is full
expect ask in=E1
ravi in E1: yes
expect no record reading state=ok
