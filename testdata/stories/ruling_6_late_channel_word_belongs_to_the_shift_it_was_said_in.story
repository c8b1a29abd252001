at 2026-11-24 06:59
+1m
at 2026-11-25 06:50
kill
milo in #station-1: engine one throttle ok
at 07:10
start
expect record reading item=e1-pump check=throttle state=ok
ines direct: status Engine 1
expect status text="4 PU-01 throttle"
