at 2026-11-25 06:59
+1m
kill
ravi in E1: 1 full, 4 ok
ines in E1: 4 ok, 9 ok
start
expect record reading item=e1-pump check=throttle state=ok
expect 1 record reading check=throttle
expect record reading check=blades state=ok
expect no ask
