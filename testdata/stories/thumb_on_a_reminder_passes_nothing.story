at 2026-11-25 06:59
+1m
at 07:46
ravi reacts 👍 11
expect no record reading
