# A thumb after words passes only what a blanket passes.
at 2026-11-25 06:59
+1m
ravi in E1: 10 stays on
ines reacts 👍 E1
expect record reading check=throttle state=ok
expect no record reading check=lights
expect no record reading check=gap
ines unreacts
expect record reading check=throttle state=open
expect no record reading check=lights
