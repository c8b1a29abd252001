# A chief may undo an order of their own only while no defect is open on the item.
at 2026-11-25 06:59
+1m
soledad in #officers: take CT-01 out of service
ravi in E1: combi blade has a nick
expect defect about=e1-combi.blades
soledad in #officers: put CT-01 back in service
expect refusal
expect no record service
