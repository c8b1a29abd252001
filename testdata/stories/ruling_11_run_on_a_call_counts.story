at 2026-11-25 06:59
+1m
at 13:00
ravi in E1: back, used the pump on the call, ran 20 min
expect record run item=e1-pump value=20
at 2026-11-26 07:00
at 10:01
expect no escalation text="PU-01"
