at 2026-11-25 06:59
+1m
ravi in E1: 12 1/4 in
expect record reading item=e1-combi check=gap state=ok value=0.25
