# Killed before and after each rung: each is said once.
at 2026-11-25 06:59
+1m
at 07:44
kill
+2m
start
expect 1 nag about=E1
kill
start
expect no nag
at 08:29
kill
+2m
start
expect 1 nag about=E1
kill
start
expect no nag
at 09:59
kill
+2m
start
expect 1 escalation text="Engine 1: "
kill
start
expect no escalation
