at 2026-11-25 06:59
+1m
ravi in E1: 4 loose
expect record reading check=throttle state=fault
ravi in E1: rest good
expect no record reading check=throttle
expect record reading check=blades state=ok
