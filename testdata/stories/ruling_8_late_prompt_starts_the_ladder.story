# Down over shift change: the ladder counts from the late prompt, and a restart moves nothing.
at 2026-11-25 05:00
+10m
kill
at 08:00
start
expect prompt about=E1
+40m
expect no nag in=E1
kill
start
expect no nag
+6m
expect 1 nag about=E1
expect no escalation
