# Yesterday's "full", said late, does not close today's "half".
at 2026-11-24 06:59
+1m
at 2026-11-25 07:00
+1m
ravi in E1: pump fuel is half
+5m
milo in 3: pump fuel is full
+1h
expect record reminder item=e1-pump check=fuel state=sent note=company
