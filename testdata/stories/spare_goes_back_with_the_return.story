at 2026-11-25 06:59
+1m
ravi in E1: 9 cracked
wim in defect 1: placed spare CT-90
wim in defect 1: repaired, back in service
expect record service item=spare-combi state=taken_back
expect record service item=e1-combi state=in_service
ines in E1: all good
expect no record reading item=spare-combi
