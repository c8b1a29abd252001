# The next shift is not on that call.
at 2026-11-25 06:59
+1m
at 2026-11-26 06:30
ravi in E1: on a call
at 07:00
expect prompt about=E1
at 07:46
expect nag about=E1
