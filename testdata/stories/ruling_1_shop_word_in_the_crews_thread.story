# A fault said by the shop in the crew's thread stands against a crew's "ok".
at 2026-11-25 06:59
+1m
wim in E1: 9 nicked
expect record reading item=e1-combi check=blades state=fault
ravi in E1: 9 ok
expect no record reading check=blades state=ok
ines in E1: 9 ok
expect record reading check=blades state=ok
