at 2026-11-25 06:59
+1m
ravi in E1: pump fuel is half
+30m
ravi in E1: pump fuel is half
+30m
expect 1 nag about=e1-pump.fuel
+2h
expect 1 escalation text="fuel at"
