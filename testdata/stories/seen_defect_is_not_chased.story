at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: seen
expect record defect state=seen
at 2026-11-26 12:00
expect no nag in="defect 1"
expect no escalation text="HH-01"
