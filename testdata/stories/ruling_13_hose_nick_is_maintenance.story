at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
expect defect room=#shop about=e1-hose-left.cover
expect no outage
