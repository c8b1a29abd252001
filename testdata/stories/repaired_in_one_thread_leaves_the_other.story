at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover, throttle is loose
expect 2 defect room=#shop
wim in defect 1: repaired
expect 1 record defect state=repaired
greta direct: open defects
expect status text="reported"
