# Busy mutes what goes to that company's thread, not the officers and not others.
at 2026-11-25 06:59
+1m
+45m
expect nag about=E1
+5m
ravi in E1: on a call
+45m
expect no nag about=E1
expect nag about=T1
at 10:01
expect escalation room=#officers text="Engine 1: "
