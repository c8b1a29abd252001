at 2026-11-25 06:59
+1m
ravi in E1: 4 ok
ines in E1: 4 ok
expect echo in=E1
ravi deletes last
expect no record reading check=throttle state=open
