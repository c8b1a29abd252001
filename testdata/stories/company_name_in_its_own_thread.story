at 2026-11-25 06:59
+1m
ravi in E1: engine 1 all good
expect record reading item=e1-pump check=throttle state=ok
expect no record reading state=fault
suri in T1: truck one all good
expect record reading item=t1-pump check=throttle state=ok
