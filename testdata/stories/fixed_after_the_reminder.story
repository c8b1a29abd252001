# The reminder says: then say "fixed".
at 2026-11-25 06:59
+1m
ravi in E1: handle lights stay on
at 09:01
ravi in E1: fixed
expect record reading item=e1-combi check=lights state=ok
expect no record reading item=e1-pump
