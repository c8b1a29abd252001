# The same low, said again two hours later, is one low.
at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid low, tool nearly closed
expect record reading item=e1-pump check=fluid state=fault
+2h
ravi in E1: hydraulic fluid low, tool nearly closed
expect no defect
