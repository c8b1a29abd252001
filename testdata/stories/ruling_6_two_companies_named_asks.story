at 2026-11-25 06:59
+1m
suri in #station-1: engine one and truck one throttle ok
expect ask
expect no record reading
