# "Bring it in tomorrow": it stays on the rig, in service, until it is there.
at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: bring it in tomorrow
expect news in=E1 text="brought in"
expect no record service
expect no outage
wim in defect 1: it's here now
expect record service item=e1-hose-left state=out_of_service
expect outage room=#officers about=e1-hose-left
