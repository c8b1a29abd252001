# "E1 4 ok" from Truck 1's man is about Engine 1.
at 2026-11-25 06:59
+1m
suri in #station-1: E1 throttle ok
expect no record reading company=T1
expect record reading item=e1-pump check=throttle state=ok company=E1
