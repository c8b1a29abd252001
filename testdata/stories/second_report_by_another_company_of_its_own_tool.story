# The same fault on another item is another defect.
at 2026-11-25 06:59
+1m
ravi in E1: combi blade has a nick
suri in T1: combi blade has a nick
expect 1 defect about=t1-combi.blades
expect no report in="defect 1"
