at 2026-11-25 06:59
+1m
at 07:46
ravi in E1: 10-4
expect no record reading
ravi in E1: roger
expect no record reading
ravi in E1: no problem
expect no record reading
ravi in E1: sounds good
expect no record reading
