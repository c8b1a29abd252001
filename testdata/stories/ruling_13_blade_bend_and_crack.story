at 2026-11-25 06:59
+1m
ravi in E1: combi blade is bent
expect defect room=#shop about=e1-combi.blades
expect no outage
suri in T1: combi blade is cracked
expect defect room=#shop about=t1-combi.blades
expect outage room=#officers about=t1-combi
