at 2026-11-25 06:59
+1m
ravi in E1: 9 cracked
wim in defect 1: placed spare CT-90
expect record service state=placed
+1m
wim in defect 1: CT-90 is on engine 1
expect no record service state=placed
expect no news
ines in E1: 21-23 ok
expect record reading item=spare-combi check=blades state=ok
expect no record reading item=e1-pump
