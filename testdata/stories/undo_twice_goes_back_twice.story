at 2026-11-25 06:59
+1m
ravi in E1: 4 ok
ravi in E1: 3 ok
ravi in E1: undo
expect record reading check=oil state=open
ravi in E1: undo
expect record reading check=throttle state=open
ravi in E1: undo
expect no record reading
