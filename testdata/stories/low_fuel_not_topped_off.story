at 2026-11-25 06:59
+1m
ravi in E1: pump fuel is half
+1h
expect nag in=E1 about=e1-pump.fuel
+2h
expect escalation room=#officers text="fuel at"
