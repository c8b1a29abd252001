# 2026-11-01, a shift of 25 hours: the prompt comes at 07:00 on the wall, once.
at 2026-10-31 06:59
+1m
expect 8 prompt
at 2026-11-01 06:59
expect no prompt
at 2026-11-01 07:00
expect 8 prompt
