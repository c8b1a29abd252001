at 2026-11-25 12:00
expect notice room=#officers
+1h
expect no prompt
at 2026-11-26 07:00
expect 8 prompt
