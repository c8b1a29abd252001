# An engine that dies is the shop's, whatever it ran.
at 2026-11-25 06:59
+1m
ravi in E1: saw died after 1 min
expect defect room=#shop about=e1-saw.run
