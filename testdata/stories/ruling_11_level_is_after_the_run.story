# A level and a run in one message: the level is after the run.
at 2026-11-25 06:59
+1m
ravi in E1: pump fuel full, ran 8 min
expect record reading item=e1-pump check=fuel state=ok value=1
expect record run item=e1-pump value=8
expect no ask
greta direct: fuel
expect status text="150 min"
