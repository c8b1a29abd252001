at 2026-11-25 06:59
+1m
ravi in E1: morning all
expect no record reading
expect no ask
