at 2026-11-25 06:59
+1m
ravi in E1: 4 ok
expect record reading check=throttle state=ok
ravi deletes last
expect record reading item=e1-pump check=throttle state=open
expect edited prompt about=E1
