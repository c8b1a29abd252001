# What the crew has fixed bothers nobody: no defect, no reminder.
at 2026-11-25 06:59
+1m
ravi in E1: handle lights stayed on, changed the battery
expect record reading item=e1-combi check=lights state=ok note="fixed by the crew"
expect no defect
+9h
expect no nag about=e1-combi.lights
expect no escalation text="CT-01"
