at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a cut
wim in defect 1: placed spare HH-90
expect edited prompt about=E1
ravi in E1: 21 ok
expect record reading item=spare-hose check=cover state=ok company=E1
at 2026-11-26 07:00
expect prompt about=E1 text="HH-90"
wim in defect 1: back in service
expect record service item=spare-hose state=taken_back
at 2026-11-27 07:00
expect prompt about=E1
expect no prompt about=E1 text="HH-90"
