# A hose that will not go on: what may hold it, with figures.
at 2026-11-25 06:59
+1m
ravi in E1: hose connection won't go on
expect record reading item=e1-pump check=connection state=fault
expect echo in=E1 text="1,800 to 2,800"
ravi in E1: throttle ok
expect no echo text="presses"
