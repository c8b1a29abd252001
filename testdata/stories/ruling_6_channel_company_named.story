at 2026-11-25 06:59
+1m
suri in #station-1: engine one throttle ok
expect record reading item=e1-pump check=throttle state=ok company=E1
expect no record reading company=T1
