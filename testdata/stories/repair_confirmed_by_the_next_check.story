at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: repaired, covered the spot
expect record defect state=repaired
expect news in=E1
at 2026-11-26 07:00
expect prompt about=E1
ravi in E1: 13 ok
expect record defect state=confirmed
expect report in="defect 1"
greta direct: open defects
expect no status text="HH-01"
