at 2026-11-25 06:59
+1m
ravi in E1: fuel is full
expect ask in=E1
expect no record reading state=ok
+1m
ravi in E1: pump
expect record reading item=e1-pump check=fuel state=ok
expect no record reading item=e1-saw state=ok
