at 2026-11-25 06:59
+1m
ravi in E1: 9 cracked
wim in defect 1: placed spare CT-90
ravi in E1: CT-90 blade is cracked
expect defect about=spare-combi.blades
expect outage room=#officers about=spare-combi
