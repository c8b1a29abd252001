at 2026-11-25 06:59
+1m
ines in E1: on a call
+1h
ines in E1: back, used the combi on the wreck, blades ok, pump ran 8 min
expect record reading item=e1-combi check=blades state=ok
expect record run item=e1-pump
expect ask in=E1 text="CT-01"
expect no record reading check=wiped state=ok
+1h
expect record reminder company=E1 state=sent
