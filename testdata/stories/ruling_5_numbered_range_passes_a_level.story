# "1-4 ok" passes a level among them without a figure; "all good" does not.
at 2026-11-25 06:59
+1m
ravi in E1: all good
expect no record reading check=fuel
expect record reading item=e1-pump check=oil state=ok
ravi in E1: 1-4 ok
expect record reading item=e1-pump check=fuel state=ok
