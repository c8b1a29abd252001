at 2026-11-25 06:59
+1m
ines in E1: 10 stays on
expect record reading check=lights state=fault
ines in E1: 10 ok
expect record reading check=lights state=ok
ines in E1: undo
expect record reading check=lights state=fault
