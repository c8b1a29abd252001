at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid low, tool nearly closed
ravi in E1: topped off the hydraulic fluid, tool nearly closed
at 2026-12-13 07:00
+1m
ravi in E1: hydraulic fluid low, tool nearly closed
expect record reading item=e1-pump check=fluid state=fault
expect no defect
