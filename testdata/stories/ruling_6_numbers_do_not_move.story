# What goes out of service in the shift leaves its numbers unused; the others keep theirs.
at 2026-11-25 06:59
+1m
ines in E1: 9 cracked
expect outage room=#officers about=e1-combi
expect edited prompt about=E1
ravi in E1: 19 ok
expect record reading item=e1-saw check=chain state=ok
