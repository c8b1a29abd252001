at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: need it here
expect news in=E1 text="brought in"
ravi in E1: dropped the left hose at the shop
expect no record reading
expect report in="defect 1" text="dropped the left hose at the shop"
expect echo in=E1 text="The shop is told"
wim in defect 1: got it here
expect record service item=e1-hose-left state=out_of_service
ravi in E1: right hose has a nick
ravi in E1: right hose has a cut, took it to the shop
expect record reading item=e1-hose-right check=cover state=fault note=cut
