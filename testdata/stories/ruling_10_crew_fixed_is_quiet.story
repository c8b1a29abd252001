at 2026-11-25 06:59
+1m
ravi in E1: handle lights stay on
+30m
ravi in E1: changed the battery, handle lights ok now
expect record reading check=lights state=ok
+2h
expect no nag about=e1-combi.lights
+6h
expect no escalation text="CT-01"
