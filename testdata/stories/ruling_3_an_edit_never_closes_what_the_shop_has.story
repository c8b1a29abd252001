at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
expect defect room=#shop
ravi edits 1: left hose cover is fine
expect report in="defect 1" text=withdrawn
expect no record defect state=closed
# the shop decides
wim in defect 1: not a fault
expect news in=E1
