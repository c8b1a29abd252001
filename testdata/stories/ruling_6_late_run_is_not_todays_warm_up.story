# Yesterday's thread, after shift change: yesterday's run, not today's.
at 2026-11-24 06:59
+1m
at 2026-11-25 07:00
+5m
milo in 3: pump ran 7 min
expect record run item=e1-pump
at 09:01
expect record reminder item=e1-pump check=run state=sent note=company
at 10:01
expect no record reminder item=e1-pump check=run note=officers
