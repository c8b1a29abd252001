at 2026-11-25 06:59
+1m
at 07:45
expect 1 nag in=E1 about=E1
at 08:30
expect 1 nag in=E1 about=E1
at 10:00
expect 1 escalation room=#officers text="Engine 1: "
+12h
expect no nag about=E1
expect no escalation text="Engine 1: "
