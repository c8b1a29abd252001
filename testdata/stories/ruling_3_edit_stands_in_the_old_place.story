# An edit does not outrank what others said later.
at 2026-11-25 06:59
+1m
ravi in E1: 10 fine
+1m
ines in E1: 10 stays on
expect record reading item=e1-combi check=lights state=fault
+1m
ravi edits 1: 10 good, looked twice
expect no record reading check=lights state=ok
ines direct: status Engine 1
expect status text="handle lights"
