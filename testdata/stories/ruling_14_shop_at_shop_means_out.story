at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
wim in defect 1: it is at the shop
expect record service item=e1-hose-left state=out_of_service
expect outage room=#officers about=e1-hose-left
wim in defect 1: repaired
expect no record service
wim in defect 1: back in service
expect record service item=e1-hose-left state=in_service
