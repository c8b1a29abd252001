at 2026-11-25 06:59
+1m
ravi in E1: blades nicked and handle does not return
expect 2 defect room=#shop
expect 1 outage room=#officers about=e1-combi
