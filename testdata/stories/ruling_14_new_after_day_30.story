at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
wim in defect 1: repaired
at 2026-11-26 07:00
ravi in E1: left hose cover ok
expect record defect state=confirmed
at 2026-12-27 07:00
+1m
omar in E1: left hose cover has a nick
expect defect room=#shop
expect record defect state=reported
expect no record defect state=reopened
