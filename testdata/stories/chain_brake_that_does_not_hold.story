at 2026-11-25 06:59
+1m
suri in T1: saw chain brake won't hold
expect outage room=#officers about=t1-saw
