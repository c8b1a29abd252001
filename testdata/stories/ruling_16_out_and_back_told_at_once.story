# Out of service goes to the officers' room at once, with who covers; so does back.
at 2026-11-25 06:59
+1m
ravi in E1: combi blade cracked
expect 1 outage room=#officers about=e1-combi text="Truck 1"
wim in defect 1: repaired, back in service
expect 1 outage room=#officers about=e1-combi
expect record service item=e1-combi state=in_service
expect news in=E1
