at 2026-11-25 06:59
+1m
soledad in #officers: take CT-01 out of service
ravi in E1: combi blade cracked
expect defect about=e1-combi.blades
wim in defect 1: not a fault
expect no record service state=in_service
soledad in #officers: put CT-01 back in service
expect record service item=e1-combi state=in_service
