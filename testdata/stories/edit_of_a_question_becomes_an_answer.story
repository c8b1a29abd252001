at 2026-11-25 06:59
+1m
ravi in E1: is the throttle ok?
expect no record reading state=ok
ravi edits last: the throttle is ok
expect record reading item=e1-pump check=throttle state=ok
