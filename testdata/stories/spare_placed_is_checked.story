at 2026-11-25 06:59
+1m
ravi in E1: 9 cracked
wim in defect 1: placed spare CT-90
expect record service item=spare-combi state=placed
expect edited prompt about=E1 text="CT-90"
expect news in=E1
at 2026-11-26 07:00
expect prompt about=E1 text="CT-90"
ines in E1: all good
expect record reading item=spare-combi check=blades state=ok
expect no record reading item=e1-combi
