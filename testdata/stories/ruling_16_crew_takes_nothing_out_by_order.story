at 2026-11-25 06:59
+1m
ravi in E1: take CT-01 out of service
expect refusal
expect no record service
ines in E1: take CT-01 out of service
expect record service item=e1-combi state=out_of_service
expect outage room=#officers about=e1-combi
