# "Low" with the position unknown asks; it is no defect.
at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid low
expect record reading item=e1-pump check=fluid state=unsure
expect ask in=E1
expect no defect
ravi in E1: closed
expect record reading item=e1-pump check=fluid state=fault
expect no defect
