# A full tank lasts 150 minutes; 30 of them are gone, short run or not.
at 2026-11-25 06:59
+1m
ravi in E1: pump fuel full
+1h
ravi in E1: pump ran 30 min
greta direct: fuel
expect status text="120 min"
