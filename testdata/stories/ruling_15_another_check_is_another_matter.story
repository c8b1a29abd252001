at 2026-11-25 06:59
+1m
ravi in E1: combi blade has a nick
suri in T1: combi blade has a nick
ivo in E3: combi handle does not return
expect no fleet
lars in E4: combi blade has a nick
expect 1 fleet room=#shop
