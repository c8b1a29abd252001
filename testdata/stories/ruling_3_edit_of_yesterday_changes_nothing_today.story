at 2026-11-24 06:59
+1m
milo in E1: pump fuel is full
at 2026-11-25 07:00
+1m
ravi in E1: pump fuel is full
expect record reading check=fuel state=ok
milo edits last: pump fuel is half
+2h
expect no record reminder item=e1-pump check=fuel
