at 2026-11-25 06:59
+1m
greta in #officers: where should the spares go?
expect status text="No spare is needed"
ravi in E1: left hose has a cut
ravi in E1: right hose has a cut
greta in #officers: where should the spares go?
expect status text="Engine 1"
