at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a cut
expect defect room=#shop about=e1-hose-left.cover
expect outage room=#officers about=e1-hose-left
expect record service item=e1-hose-left state=out_of_service
