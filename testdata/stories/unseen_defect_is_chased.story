at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
at 08:59
expect no nag in="defect 1"
at 09:01
expect nag in="defect 1"
at 15:01
expect escalation room=#officers about=e1-hose-left.cover
