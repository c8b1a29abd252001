at 2026-11-25 06:59
+1m
ravi in E1: pump fuel half, scratch that, 3/4
expect record reading item=e1-pump check=fuel state=ok value=0.75
expect no nag
