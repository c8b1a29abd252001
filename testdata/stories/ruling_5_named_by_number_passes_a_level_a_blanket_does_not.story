at 2026-11-25 06:59
+1m
ines in E1: all good
expect no record reading check=fuel
ines in E1: 1-4 ok
expect record reading item=e1-pump check=fuel state=ok
