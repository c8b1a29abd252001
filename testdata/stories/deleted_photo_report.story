at 2026-11-25 06:59
+1m
ravi in E1 with photo: left hose has a nick in the cover
expect 1 defect
ravi deletes last
expect record defect state=withdrawn
expect no record defect state=not_a_fault
