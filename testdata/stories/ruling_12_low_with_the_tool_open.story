at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid low, tool was open
expect record reading item=e1-pump check=fluid state=unsure
expect ask in=E1
expect no defect
+5m
ravi in E1: closed it, hydraulic fluid is ok
expect record reading item=e1-pump check=fluid state=ok
