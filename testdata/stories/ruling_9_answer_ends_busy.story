at 2026-11-25 06:59
+2m
ravi in E1: on a call
+20m
ravi in E1: 4 ok
expect record reading check=throttle state=ok
+30m
expect nag about=E1
