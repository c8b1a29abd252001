at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in #shop: repaired
expect ask in=#shop
expect no record defect state=repaired
