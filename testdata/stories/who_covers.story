# Engine 1 without its cutter: who cuts and spreads for it, and how far away.
at 2026-11-25 06:59
+1m
greta direct: who covers Engine 1?
expect status text="Truck 1, same station"
ravi in E1: combi blades cracked
greta direct: who covers Engine 1?
expect status text="CANNOT"
greta in #officers: who covers Engine 4
expect status in=#officers text="about 13.1 min"
greta in #officers: who can cut for Engine 4?
expect status in=#officers text="cut"
