at 2026-11-25 06:59
+1m
ravi in E1: combi blade cracked
at 08:30
expect 1 summary room=#officers text="CT-01"
