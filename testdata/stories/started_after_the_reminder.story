at 2026-11-25 06:59
+1m
at 09:01
ravi in E1: started
expect ask in=E1
