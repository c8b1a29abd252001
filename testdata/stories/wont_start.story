# An engine that will not start is the shop's.
at 2026-11-25 06:59
+1m
ravi in E1: pump won't start
expect record reading item=e1-pump check=run state=fault
expect defect room=#shop about=e1-pump.run
