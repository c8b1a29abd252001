# The reporter's own later "ok" passes the check and leaves the defect to the shop.
at 2026-11-25 06:59
+1m
ravi in E1: 9 nicked
+2m
ravi in E1: 9 ok
expect record reading item=e1-combi check=blades state=ok
expect record defect state=withdrawn
greta direct: open defects
expect status text="CT-01"
