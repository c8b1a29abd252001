at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
wim in defect 1: waiting for parts
expect record defect state=parts
expect no outage
wim in defect 1: got it at the shop
expect record defect state=at_shop
expect outage room=#officers about=e1-hose-left
wim in defect 1: placed spare HH-90
expect record service item=spare-hose state=placed company=E1
expect record defect state=spare_placed
expect news in=E1
wim direct: status HH-01
expect status text="OUT OF SERVICE"
expect status text="HH-90"
