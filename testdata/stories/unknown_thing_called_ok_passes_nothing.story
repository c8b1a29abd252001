at 2026-11-25 06:59
+1m
ravi in E1: siren ok
expect no record reading state=ok
ravi in E1: radio is good
expect no record reading state=ok
