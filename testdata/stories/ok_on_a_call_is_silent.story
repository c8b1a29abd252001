at 2026-11-25 06:59
+1m
ravi in E1: on a call
expect answer in=E1
ravi in E1: ok
expect nothing
