# Low, and the tool was nearly closed: "yes" is no pass of the fluid.
at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid low
expect ask in=E1
ravi in E1: yes
expect no record reading check=fluid state=ok
expect record reading item=e1-pump check=fluid state=fault
