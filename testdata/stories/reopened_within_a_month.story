at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: repaired
at 2026-11-26 07:00
+1m
ravi in E1: 13 ok
expect record defect state=confirmed
at 2026-12-10 07:00
+1m
omar in E1: left hose has a nick in the cover
expect record defect state=reopened
expect defect in="defect 1"
expect no record defect state=reported
