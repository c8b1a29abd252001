at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
ines in E1: left hose cover has a nick
suri in T1: hose cover has a nick
expect defect about=t1-hose.cover
expect no fleet
