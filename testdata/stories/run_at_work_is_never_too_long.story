# At work an engine runs as long as it is needed; as a warm-up the same is too long.
at 2026-11-25 06:59
+1m
ravi in E1: used the combi on a wreck, pump ran 45 min
expect record run item=e1-pump state=ok value=45
expect no echo text="TOO LONG"
suri in T1: pump ran 45 min
expect echo in=T1 text="TOO LONG"
