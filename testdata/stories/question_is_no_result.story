at 2026-11-25 06:59
+1m
ines in E1: all good
ines in E1: anything left?
expect no record reading
ravi in E1: is the throttle supposed to move?
expect no record reading
ravi in E1: let me know if the throttle is loose
expect no record reading
