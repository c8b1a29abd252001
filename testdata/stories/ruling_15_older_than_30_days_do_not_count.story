at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
suri in T1: hose cover has a nick
at 2026-12-27 07:00
+1m
hugo in E3: hose cover has a nick
expect defect about=e3-hose.cover
expect no fleet
