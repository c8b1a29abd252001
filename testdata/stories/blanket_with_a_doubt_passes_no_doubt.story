at 2026-11-25 06:59
+1m
ravi in E1: all good i guess
expect no record reading state=ok
