at 2026-11-25 06:59
+1m
ravi in E1: small nick in the blades, filed it down
expect record reading item=e1-combi check=blades state=fault
expect defect room=#shop about=e1-combi.blades text="filed"
