# Two crews of one station type at once: each word stays with its company.
at 2026-11-25 06:59
+1m
kill
ravi in E1: 4 loose
suri in T1: 4 ok
start
expect record reading item=e1-pump check=throttle state=fault company=E1
expect record reading item=t1-pump check=throttle state=ok company=T1
expect 1 defect
