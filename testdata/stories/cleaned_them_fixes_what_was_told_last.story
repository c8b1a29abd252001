# "cleaned them" is for the fault told of just before; of several others it says nothing.
at 2026-11-25 06:59
+1m
ravi in E1: handle lights stay on
ravi in E1: left hose couplers dirty
ravi in E1: cleaned them
expect record reading item=e1-hose-left check=couplers state=ok note="fixed by the crew"
expect no record reading item=e1-combi
ravi in E1: right hose couplers dirty
+30m
ravi in E1: fixed
expect no record reading state=ok
expect ask in=E1 text="Which one is fixed?"
ravi in E1: 16 fixed
expect record reading item=e1-hose-right check=couplers state=ok
