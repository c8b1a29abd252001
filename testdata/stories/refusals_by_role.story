# The shop's words are the shop's, an order is an officer's.
at 2026-11-25 06:59
+1m
ravi in E1: combi blade cracked
ravi in defect 1: repaired
expect refusal
expect no record defect state=repaired
ines in defect 1: back in service
expect refusal
expect no record service
soledad in defect 1: not a fault
expect refusal
expect no record defect state=not_a_fault
ravi in E1: take HH-01 out of service
expect refusal
expect no record service
greta direct: open defects
expect status text="CT-01"
