# An edit to a fault is a fault, and the shop hears of it once.
at 2026-11-25 06:59
+1m
ravi in E1: 9 ok
ravi edits last: 9 nicked
expect record reading item=e1-combi check=blades state=fault
expect 1 defect room=#shop
ravi edits last: 9 nicked near the tip
expect no defect
