at 2026-11-25 06:59
+1m
ravi in E1: same as yesterday
expect no record reading state=ok
ravi in E1: B shift said it was all good
expect no record reading state=ok
