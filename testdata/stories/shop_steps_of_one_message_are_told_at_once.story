at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: seen, need it here, spare HH-90 is on engine 1
expect 1 news in=E1 text="brought in"
expect 1 news in=E1 text="HH-90 stands in"
expect 1 echo in="defect 1" text="to be brought in; spare HH-90 stands in; Engine 1 is told."
expect record defect state=seen
wim in defect 1: fixed, back in service
expect 1 news in=E1 text="back in service"
expect record defect state=repaired
expect record defect state=returned
