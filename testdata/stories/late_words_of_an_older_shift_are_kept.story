# Two shifts back: kept on record, not taken for today.
at 2026-11-23 06:59
+1m
kill
start
ines in E1: on a call
at 2026-11-23 12:00
kill
milo in E1: 4 ok
at 2026-11-24 07:10
start
expect record reading item=e1-pump check=throttle state=ok
ines direct: status Engine 1
expect status text="4 PU-01 throttle"
