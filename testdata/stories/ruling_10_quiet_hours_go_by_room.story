# The station sleeps, the officers' room does not.
at 2026-11-25 06:59
+1m
at 21:30
ravi in E1: pump fuel is half
+1h
expect no nag about=e1-pump.fuel
expect record reminder item=e1-pump state=quiet_hours
+2h
expect escalation room=#officers about=e1-pump.fuel
