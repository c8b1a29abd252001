at 2026-11-25 06:59
+1m
ines in E1: left hose has a nick in the cover
expect defect room=#shop
ines in defect 1 with photo: the nick in the left hose
expect no defect
ines in E1 with photo: the nick in the left hose
expect no defect
