at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
wim in defect 1: repaired, back in service
suri in T1: hose cover has a nick
at 2026-11-26 07:00
ravi in E1: left hose cover ok
expect record defect state=confirmed
+1m
ivo in E3: hose cover has a nick
expect 1 fleet room=#shop
