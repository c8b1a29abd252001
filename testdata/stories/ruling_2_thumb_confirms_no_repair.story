at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: repaired
at 2026-11-26 07:00
ines reacts 👍 E1
expect record reading item=e1-hose-right check=cover state=ok
expect no record defect state=confirmed
