# Confirmed by another, the fault is no longer its speaker's alone to take back.
at 2026-11-25 06:59
+1m
ravi in E1: 10 stays on
lars in E1: 10 stays on
+2m
ravi in E1: 10 ok
expect no record reading check=lights state=ok
expect record reading item=e1-combi check=lights state=unsure
expect 1 ask in=E1
