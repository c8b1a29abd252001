# Yesterday's words edited today change yesterday only.
at 2026-11-24 06:59
+1m
milo in E1: 4 ok
at 2026-11-25 07:00
+1m
milo edits last: 4 loose
expect record reading item=e1-pump check=throttle state=fault
expect defect room=#shop about=e1-pump.throttle
ines direct: status Engine 1
expect status text="4 PU-01 throttle"
