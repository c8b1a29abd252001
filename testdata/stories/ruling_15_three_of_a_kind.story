# Three items of a kind, same check: a fleet matter, said once.
at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
suri in T1: hose cover has a nick
expect no fleet
ivo in E3: hose cover has a nick
expect 1 fleet room=#shop
lars in E4: hose cover has a nick
expect no fleet
