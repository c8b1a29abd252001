at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: parts on order until Friday
expect record defect state=parts
at 2026-11-27 10:00
wim in defect 1: repaired
at 2026-11-30 08:00
expect no nag in="defect 1"
