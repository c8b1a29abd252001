# The ladder outlives the shift change; today's "full" ends it.
at 2026-11-25 06:59
+1m
at 2026-11-26 06:00
ravi in E1: pump fuel is half
at 2026-11-26 07:00
expect nag about=e1-pump.fuel
+5m
ines in E1: pump fuel full
expect record reading item=e1-pump check=fuel state=ok
+3h
expect no escalation text="fuel"
