# "Repaired" alone returns nothing.
at 2026-11-25 06:59
+1m
ravi in E1: combi blade cracked
wim in defect 1: repaired
expect record defect state=repaired
expect no record service
expect no outage
at 2026-11-26 07:00
expect prompt about=E1
ines in E1: all good
expect no record reading item=e1-combi
