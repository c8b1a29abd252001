# So may the shop.
at 2026-11-25 06:59
+1m
ravi in E1: 10 stays on
wim in E1: 10 ok
expect record reading item=e1-combi check=lights state=ok
expect no ask
