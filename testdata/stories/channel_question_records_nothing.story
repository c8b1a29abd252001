at 2026-11-25 06:59
+1m
ravi in #station-1: all good with the new guy?
expect no record reading
expect no ask
