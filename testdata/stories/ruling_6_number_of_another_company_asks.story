at 2026-11-25 06:59
+1m
ravi in #station-1: GN-01 oil ok
expect ask
expect no record reading
