at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: how deep is it?
expect news in=E1
expect no record defect state=seen
