# Blades default to maintenance; a handle that does not return is out of service.
at 2026-11-25 06:59
+1m
ravi in E1: 9 bad
expect defect room=#shop about=e1-combi.blades
expect no outage
ravi in E1: 11 no
expect outage room=#officers about=e1-combi
