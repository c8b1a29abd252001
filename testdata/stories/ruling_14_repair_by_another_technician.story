at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
wim in defect 1: seen
pilar in defect 1: repaired
expect record defect state=repaired
expect news in=E1
