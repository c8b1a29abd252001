# Several doubts in one message: one question about all of them.
at 2026-11-25 06:59
+1m
ravi in E1: couldn't check the throttle or the leaks
expect 1 ask in=E1
expect record reading check=throttle state=unsure
expect record reading check=leaks state=unsure
