# "ok" to what the bot said back is no blanket.
at 2026-11-25 06:59
+1m
ravi in E1: pump fuel 7/8
ravi in E1: ok
expect no record reading
expect ask in=E1 text="Open: 2-20"
ravi in E1: couldn't check the throttle
expect ask in=E1
ravi in E1: ok
expect record reading item=e1-pump check=throttle state=ok
expect no record reading check=chain
