# Last shift's officer still counts as the company's officer, and nobody else's.
at 2026-11-25 06:59
+1m
ravi in E1: 10 stays on
tess in E1: 10 ok
expect record reading check=lights state=ok
