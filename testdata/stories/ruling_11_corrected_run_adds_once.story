at 2026-11-25 06:59
+1m
ravi in E1: pump ran 30 min
+1m
ravi edits last: pump ran 6 min
expect record run item=e1-pump value=6
greta direct: status PU-01
expect status text="46.6"
