# Engine 1 has a second hose, but who covers is another company.
at 2026-11-25 06:59
+1m
ravi in E1: left hose cover is cut
expect outage room=#officers about=e1-hose-left
expect no outage text="Cover: Engine 1"
