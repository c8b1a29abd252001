# The lights are the crew's: an edit takes the fault back, and its reminder.
at 2026-11-25 06:59
+1m
ravi in E1: 10 stays on
ravi edits last: 10 ok
expect record reading check=lights state=ok
+3h
expect no nag about=e1-combi.lights
