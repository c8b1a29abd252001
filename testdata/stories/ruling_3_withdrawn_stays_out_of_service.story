at 2026-11-25 06:59
+1m
ravi in E1: combi blade cracked
expect outage about=e1-combi
ravi deletes last
expect record defect state=withdrawn
expect no record service state=in_service
expect no outage
