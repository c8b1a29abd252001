at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
ravi in defect 1: repaired
expect refusal
expect no record defect state=repaired
