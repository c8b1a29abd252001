# The open tool holds 9.8 fl oz of rod volume (1.5 in rod, 10 in stroke): filled now, it would overflow by that.
at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid low
expect ask in=E1 text="tips about 1/4"
ravi in E1: it was open
expect ask in=E1 text="9.8 fl oz"
expect no defect
expect no record reading item=e1-pump check=fluid state=fault
ravi in E1: 2 ok, tool closed
expect record reading item=e1-pump check=fluid state=ok
