at 2026-11-25 06:59
+1m
ravi in E1: left hose has a cut
expect outage room=#officers text="Truck 1, same station; Engine 1 still has HH-02"
ravi in E1: right hose has a cut
expect no outage text="still has"
