# Down over the shift change: the prompt goes out late, once.
at 2026-11-25 05:00
+10m
kill
at 08:00
start
expect prompt about=E1
expect 8 prompt
kill
start
expect no prompt
+5m
expect no prompt
