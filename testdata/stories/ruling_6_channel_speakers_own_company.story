at 2026-11-25 06:59
+1m
ravi in #station-1: throttle ok
expect record reading item=e1-pump check=throttle state=ok company=E1
suri in #station-1: fan guard ok
expect record reading item=t1-fan check=guard state=ok company=T1
