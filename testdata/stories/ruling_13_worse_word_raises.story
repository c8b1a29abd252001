at 2026-11-25 06:59
+1m
ravi in E1: combi blade has a nick
expect 1 defect
expect no outage
+10m
ines in E1: combi blade is cracked
expect no defect
expect report in="defect 1"
expect outage room=#officers about=e1-combi
