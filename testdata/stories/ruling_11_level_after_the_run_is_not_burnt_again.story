at 2026-11-25 06:59
+1m
ravi in E1: pump ran 10 min, fuel full
greta direct: fuel
expect status text="150 min"
