at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
ines in E1 with photo: left hose cover
expect no defect
expect report in="defect 1"
