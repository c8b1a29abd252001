at 2026-11-25 06:59
+1m
ravi in E1: saw brake won't hold
expect defect about=e1-saw.chain
expect outage room=#officers about=e1-saw
