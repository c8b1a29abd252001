# Anybody's word makes a fault of a pass, at once, even somebody of another company.
at 2026-11-25 06:59
+1m
ines in E1: 9 ok
expect record reading item=e1-combi check=blades state=ok
suri in E1: 9 nicked
expect record reading item=e1-combi check=blades state=fault
expect no ask
expect defect room=#shop about=e1-combi.blades
