at 2026-11-25 06:59
+1m
ines in E1: left hose has a nick in the cover
expect defect room=#shop
at 2026-11-26 07:00
+1m
ines in E1: all good
expect record reading item=e1-hose-right check=cover state=ok
expect no record reading item=e1-hose-left check=cover
# repaired, it waits for a word that names it
wim in defect 1: repaired
+1d
ines in E1: all good
expect no record reading item=e1-hose-left check=cover
ines in E1: left hose cover is fine
expect record reading item=e1-hose-left check=cover state=ok
expect record defect state=confirmed
