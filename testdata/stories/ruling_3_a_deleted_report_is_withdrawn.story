at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
expect defect room=#shop
ravi deletes 1
expect report in="defect 1" text=withdrawn
