at 2026-11-25 06:59
+1m
ines in E1: all good
ines in E1: on a call
at 08:30
ines in E1: back, used the combi
expect ask in=E1
expect edited prompt about=E1
ines in E1: 21 yes
expect record reading item=e1-combi check=wiped state=ok
