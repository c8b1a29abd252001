# Down for two days: only today's prompt goes out.
at 2026-11-25 06:59
+1m
kill
at 2026-11-27 09:00
start
expect 8 prompt
expect 1 prompt about=E1
+40m
expect no nag about=E1
