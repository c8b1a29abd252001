# Edited to something else altogether: what was said is open again.
at 2026-11-25 06:59
+1m
ravi in E1: 4 ok
ravi edits last: wrong thread, sorry
expect record reading item=e1-pump check=throttle state=open
