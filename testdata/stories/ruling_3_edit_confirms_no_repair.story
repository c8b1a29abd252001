# The edit stands where the old words stood: before the repair.
at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
at 10:00
wim in defect 1: repaired
expect record defect state=repaired
+5m
ravi edits last: left hose cover ok
expect no record defect state=confirmed
