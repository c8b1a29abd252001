# The tank was read after the run: the next reading is measured against it.
at 2026-11-25 06:59
+1m
ravi in E1: pump ran 10 min, fuel 7/8
expect record reading item=e1-pump check=fuel state=ok
expect record run item=e1-pump value=10
expect no ask
