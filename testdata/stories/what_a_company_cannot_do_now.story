# Before the next alarm: which company cannot cut and spread, and who covers.
at 2026-11-25 06:59
+1m
ravi in E1: combi blades cracked
greta in #officers: status Engine 1
expect status text="Can: cut wood"
expect status text="CANNOT cut, spread; cover: Truck 1, same station"
greta in #officers: status Engine 2
expect no status text="CANNOT"
at 08:30
expect summary in=#officers text="Engine 1: CANNOT cut, spread; cover: Truck 1, same station"
