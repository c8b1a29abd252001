at 2026-11-25 06:59
+1m
ines in E1: left hose has a nick in the cover
expect defect room=#shop
wim in defect 1: repaired
+1d
ines in E1: left hose cover is fine
expect record defect state=confirmed
+10d
tess in E1: left hose has a nick in the cover
expect defect in="defect 1" text=REOPENED
