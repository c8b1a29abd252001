# The same words again change nothing: no new record, no second defect.
at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
expect 1 defect
ravi in E1: left hose has a nick in the cover
expect no defect
expect no record reading
ravi in E1: pump ran 7 min
expect 1 record run
ravi in E1: pump ran 7 min
expect no record run
