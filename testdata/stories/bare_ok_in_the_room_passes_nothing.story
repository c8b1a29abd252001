# "ok" in the open room is talk among people.
at 2026-11-25 06:59
+1m
ravi in #station-1: ok
expect no record reading
ravi in #station-1: good
expect no record reading
