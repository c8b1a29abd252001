# "Left hose all good" names the item: that is no bare blanket.
at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: repaired
at 2026-11-26 07:00
ines in E1: left hose all good
expect record reading item=e1-hose-left check=cover state=ok
expect record defect state=confirmed
