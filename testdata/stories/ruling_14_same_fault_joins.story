# Same item and same check: one thread.
at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
expect 1 defect
at 2026-11-27 07:00
+1m
ana in E1: left hose cover has a nick
expect no defect
expect report in="defect 1"
expect record defect state=joined
# Another check of the item, and another item, are other faults.
ana in E1: right hose cover has a nick
expect 1 defect about=e1-hose-right.cover
