at 2026-11-25 06:59
+1m
ravi in E1: how do I read the hydraulic fluid?
expect answer in=E1
expect no record reading
