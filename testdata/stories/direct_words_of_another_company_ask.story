at 2026-11-25 06:59
+1m
ravi direct: GN-01 oil ok
expect no record reading
expect ask in=direct
