at 2026-11-25 06:59
+1m
ravi in E1: combi blade is cracked
expect outage room=#officers about=e1-combi
+10m
ines in E1: combi blade has just a nick
expect no outage
expect no record service state=in_service
