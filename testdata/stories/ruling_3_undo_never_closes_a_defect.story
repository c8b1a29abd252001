at 2026-11-25 06:59
+1m
ravi in E1: 9 nicked
expect defect room=#shop
+2m
ravi in E1: undo that
expect echo in=E1
expect report in="defect 1"
expect record defect state=withdrawn
greta direct: open defects
expect status text="CT-01"
