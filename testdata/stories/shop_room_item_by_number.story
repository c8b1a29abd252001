# The shop may speak in its room and name the item.
at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in #shop: HH-01 repaired
expect record defect state=repaired
expect news in=E1
