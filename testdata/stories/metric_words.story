at 2026-11-25 06:59
+1m
ravi in E1: tip gap 6 mm
expect record reading item=e1-combi check=gap state=ok
