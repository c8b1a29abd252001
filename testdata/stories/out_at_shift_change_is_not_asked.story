at 2026-11-25 06:59
+1m
ravi in E1: combi blade cracked
at 2026-11-26 07:00
expect prompt about=E1 text="CT-01"
at 07:46
expect no nag about=E1 text="CT-01"
