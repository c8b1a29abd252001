# At its very first start in mid-shift the bot waits for the next change.
at 2026-11-25 09:00
+21h
expect no prompt
expect no nag
at 2026-11-26 07:00
expect 8 prompt
