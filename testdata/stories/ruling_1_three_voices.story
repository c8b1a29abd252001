# Fault, "ok" of another, fault again: a fault, and the blanket leaves it.
at 2026-11-25 06:59
+1m
ravi in E1: 10 stays on
suri in E1: 10 ok
expect record reading check=lights state=unsure
ravi in E1: 10 stays on
expect record reading check=lights state=fault
ines in E1: all good
expect no record reading check=lights
