# Who said the fault may say it passes, while nobody else confirmed it.
at 2026-11-25 06:59
+1m
ravi in E1: 10 stays on
expect record reading item=e1-combi check=lights state=fault
+2m
ravi in E1: 10 ok
expect record reading item=e1-combi check=lights state=ok
expect no ask
