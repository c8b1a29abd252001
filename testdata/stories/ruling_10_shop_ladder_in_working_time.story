# Reported on Friday at 15:30, two working hours have passed on Monday at 08:30.
at 2026-11-27 06:59
+1m
at 15:30
ana in E1: left hose has a nick in the cover
expect defect room=#shop
at 2026-11-30 08:29
expect no nag in="defect 1"
at 08:31
expect nag in="defect 1"
at 14:29
expect no escalation text="HH-01"
at 14:31
expect escalation room=#officers about=e1-hose-left.cover
