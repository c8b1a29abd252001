at 2026-11-25 06:59
+1m
ravi in E1: combi blades ok
ravi in E1: used it on a call
expect ask in=E1 text="CT-01 wiped"
expect no answer text="On a run"
