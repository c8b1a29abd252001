# A fault that the crew is to fix and has not said fixed: the company, then the officers.
at 2026-11-25 06:59
+1m
ravi in E1: handle lights stay on
expect record reading check=lights state=fault
expect no defect
+2h
expect nag about=e1-combi.lights in=E1
+6h
expect escalation room=#officers about=e1-combi.lights
