# 30 days, inclusive, from "repaired".
at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
at 10:00
wim in defect 1: repaired
at 2026-12-25 07:00
+1m
omar in E1: left hose cover has a nick
expect defect in="defect 1"
expect record defect state=reopened
