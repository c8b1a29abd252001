# Out at shift change, so not asked; back in mid-shift, it gets numbers behind the others.
at 2026-11-25 06:59
+1m
ravi in E1: combi blade cracked
at 2026-11-26 07:00
at 10:00
wim in defect 1: repaired, back in service
expect edited prompt about=E1
expect outage room=#officers about=e1-combi
ines in E1: combi blades ok
expect record reading item=e1-combi check=blades state=ok
expect record defect state=confirmed
