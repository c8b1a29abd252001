at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: seen
expect news in=E1
ravi reacts 👍 14
expect no record reading
wim reacts 👍 defect 1
expect no record reading
expect no record defect
