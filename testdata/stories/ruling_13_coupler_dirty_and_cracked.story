# Couplers: dirty is the crew's, cracked is the shop's.
at 2026-11-25 06:59
+1m
ravi in E1: left hose couplers are dirty
expect record reading item=e1-hose-left check=couplers state=fault
expect no defect
ravi in E1: right hose coupler is cracked
expect defect room=#shop about=e1-hose-right.couplers
