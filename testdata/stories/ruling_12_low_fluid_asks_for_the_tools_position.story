at 2026-11-25 06:59
+1m
ines in E1: hydraulic fluid low
expect ask in=E1
expect no defect
ines in E1: tool was closed
expect no defect
# low again within 14 days, tool closed: the shop's
+1d
ines in E1: hydraulic fluid low, tool closed
expect defect room=#shop
