at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
expect 1 defect room=#shop
+1m
ravi in E1 with photo: here is the nick in the left hose cover
expect no defect
expect report in="defect 1"
expect no record defect state=joined
greta direct: open defects
expect status text="HH-01"
