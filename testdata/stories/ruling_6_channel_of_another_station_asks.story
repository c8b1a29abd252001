# Ravi's company does not share Station 2's channel: ask.
at 2026-11-25 06:59
+1m
ravi in #station-2: throttle ok
expect ask in=#station-2
expect no record reading
