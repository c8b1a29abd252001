# The wrong number, edited: the first is open again, the second is at fault.
at 2026-11-25 06:59
+1m
ravi in E1: 10 stays on
ravi edits last: 16 dirty
expect record reading item=e1-combi check=lights state=open
expect record reading item=e1-hose-right check=couplers state=fault
+3h
expect no record reminder item=e1-combi check=lights
