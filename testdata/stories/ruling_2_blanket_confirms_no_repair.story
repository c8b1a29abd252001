# Nor one that waits for a repair's confirmation; naming the item confirms.
at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: seen
wim in defect 1: repaired
expect record defect state=repaired
at 2026-11-26 07:00
ines in E1: all good
expect no record reading item=e1-hose-left check=cover
expect no record defect state=confirmed
ines in E1: left hose cover is ok
expect record reading item=e1-hose-left check=cover state=ok
expect record defect state=confirmed
expect report in="defect 1"
expect no defect
