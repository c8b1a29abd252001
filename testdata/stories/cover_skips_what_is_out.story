# Truck 1's tool is out too: the next nearest covers.
at 2026-11-25 06:59
+1m
suri in T1: combi blade cracked
expect outage about=t1-combi text="Engine 1"
ravi in E1: combi blade cracked
expect outage about=e1-combi
expect no outage about=e1-combi text="Truck 1"
