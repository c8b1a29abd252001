# The shop has the defect: an edit withdraws the report, the shop decides.
at 2026-11-25 06:59
+1m
ravi in E1: 9 nicked
expect defect room=#shop
+2m
ravi edits last: 9 ok
expect report in="defect 1"
expect record defect state=withdrawn
greta direct: open defects
expect status text="CT-01"
wim in defect 1: not a fault
expect record defect state=not_a_fault
greta direct: open defects
expect no status text="CT-01"
