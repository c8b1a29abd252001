# Said in yesterday's thread after shift change: yesterday's; today's stays open.
at 2026-11-24 06:59
+1m
at 2026-11-25 06:50
kill
milo in E1: 4 ok
at 07:10
start
expect prompt about=E1
expect record reading item=e1-pump check=throttle state=ok
+1m
ines direct: status Engine 1
expect status text="4 PU-01 throttle"
