# A blanket overwrites neither a fault nor an unsure, whoever says it.
at 2026-11-25 06:59
+1m
ravi in E1: 10 stays on, couldn't check the throttle
expect record reading item=e1-combi check=lights state=fault
expect record reading item=e1-pump check=throttle state=unsure
+3m
ines in E1: all good
expect record reading item=e1-combi check=blades state=ok
expect no record reading check=lights
expect no record reading check=throttle
ravi in E1: all good
expect no record reading check=lights
expect no record reading check=throttle
