# "ok" to the prompt may mean "will do": it passes nothing, "all good" does.
at 2026-11-25 06:59
+1m
ravi in E1: ok
expect no record reading
expect ask in=E1 text="Say what is ok"
ravi in E1: all good
expect record reading item=e1-pump check=throttle state=ok
