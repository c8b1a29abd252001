at 2026-11-25 06:59
+1m
ines in E1: all good
ines in E1: 1 full, 12 1/4 in, 17 full
expect record reading item=e1-combi check=gap state=ok
at 11:00
expect no nag about=E1
expect no escalation text="Engine 1"
