# What happens at night stays put for the morning of the shop.
at 2026-11-25 06:59
+1m
at 23:00
ravi in E1: left hose has a nick in the cover
expect defect room=#shop
at 2026-11-26 07:00
expect no nag in="defect 1"
at 09:01
expect nag in="defect 1"
