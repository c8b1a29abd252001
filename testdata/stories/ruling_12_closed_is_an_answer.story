at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid low
ravi in E1: tool was closed
expect record reading item=e1-pump check=fluid state=fault
