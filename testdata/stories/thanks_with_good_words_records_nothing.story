at 2026-11-25 06:59
+1m
ravi in E1: thanks, good to know
expect no record reading
ravi in E1: good catch
expect no record reading
