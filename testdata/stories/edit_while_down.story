at 2026-11-25 06:59
+1m
kill
ravi in E1: 4 loose
ravi edits last: 4 ok
start
expect record reading item=e1-pump check=throttle
expect no record reading check=throttle state=open
ines direct: status Engine 1
expect no status text="4 PU-01 throttle"
