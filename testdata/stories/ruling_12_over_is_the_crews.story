at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid is over
expect record reading item=e1-pump check=fluid state=fault
expect no defect
