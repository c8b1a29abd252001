at 2026-11-25 06:59
+1m
ravi in E1: chief says ok
expect no record reading state=ok
ravi in E1: they told me it was fine
expect no record reading state=ok
