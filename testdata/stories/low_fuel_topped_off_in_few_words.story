at 2026-11-25 06:59
+1m
ravi in E1: pump fuel is half
+5m
ravi in E1: topped it off
expect record reading item=e1-pump check=fuel state=ok
