at 2026-11-25 06:59
+1m
ravi in E1: 9 nicked
expect defect room=#shop
+2m
ravi deletes last
expect report in="defect 1"
expect record defect state=withdrawn
expect record reading item=e1-combi check=blades state=open
greta direct: open defects
expect status text="CT-01"
