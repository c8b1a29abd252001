at 2026-11-25 06:59
+1m
ravi in E1: combi blade cracked
expect outage about=e1-combi
ines direct: put CT-01 back in service
expect refusal
expect no record service
ravi in E1: put CT-01 back in service
expect refusal
expect no record service
soledad direct: put CT-01 back in service
expect refusal
expect no record service
wim direct: put CT-01 back in service
expect record service item=e1-combi state=in_service
expect outage room=#officers about=e1-combi
