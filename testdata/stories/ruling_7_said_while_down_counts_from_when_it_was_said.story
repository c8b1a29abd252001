# What is said while the bot is down arrives late and counts from when it was said.
at 2026-11-25 06:59
+1m
kill
ines in E1: 1 full
ines in E1: all good
+20m
start
expect record reading item=e1-pump check=fuel state=ok
expect record reading item=e1-pump check=throttle state=ok
expect echo in=E1
kill
start
expect no echo
expect no record reading
