at 2026-03-07 06:59
+1m
expect 8 prompt
at 2026-03-08 06:59
expect no prompt
at 2026-03-08 07:00
expect 8 prompt
