# What the crew answers to the shop's question reaches the shop, and passes nothing.
at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: can you feel the wire through it?
expect news in=E1 text="The shop asks about HH-01"
ravi in E1: yes
expect report in="defect 1" text="yes"
expect echo in=E1 text="The shop is told"
expect no record reading
ravi in E1: throttle ok
expect no report
wim in defect 1: how deep is it?
milo in E1: about as deep as a dime
expect report in="defect 1" text="dime"
expect no record reading
wim in defect 1: does it leak?
ravi in E1: left hose cover has a cut now
expect report in="defect 1" text="has a cut now"
expect outage about=e1-hose-left
