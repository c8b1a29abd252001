at 2026-11-25 06:59
+1m
ravi in E1: couldn't check the throttle
expect ask in=E1
ravi in E1: ok will look
expect no record reading state=ok
ravi in E1: roger
expect no record reading state=ok
