# The next crew finds it still bad: the defect is open again.
at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: repaired
at 2026-11-26 07:00
ines in E1: 13 nicked
expect record defect state=reopened
expect defect in="defect 1"
expect no record defect state=confirmed
