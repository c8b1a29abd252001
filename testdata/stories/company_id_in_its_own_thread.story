# "E1" is the company, not an empty tank.
at 2026-11-25 06:59
+1m
ravi in E1: E1 all good
expect record reading item=e1-pump check=throttle state=ok
expect no record reading state=fault
expect no ask
leila in E3: E3: 4 ok
expect record reading item=e3-pump check=throttle state=ok
expect no record reading state=fault
