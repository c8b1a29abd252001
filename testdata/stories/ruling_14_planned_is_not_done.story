# "Will be repaired" closes nothing.
at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
expect defect room=#shop
wim in defect 1: will be repaired tomorrow
expect no record defect state=repaired
wim in defect 1: not repaired yet
expect no record defect state=repaired
wim in defect 1: repaired?
expect no record defect state=repaired
