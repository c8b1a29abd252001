# A blanket does not reach a check with an open defect; a word that names the check does.
at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
expect defect room=#shop
at 2026-11-26 07:00
expect prompt about=E1
ines in E1: all good
expect record reading item=e1-hose-right check=cover state=ok
expect no record reading item=e1-hose-left check=cover
ines in E1: 13 ok
expect record reading item=e1-hose-left check=cover state=ok
expect no record defect state=confirmed
greta direct: open defects
expect status text="HH-01"
