# Anyone else's "ok" makes a fault unsure and asks once; another company's officer is anyone else.
at 2026-11-25 06:59
+1m
ravi in E1: 10 stays on
mirek in E1: 10 ok
expect no record reading check=lights state=ok
expect record reading item=e1-combi check=lights state=unsure
expect 1 ask in=E1
+5m
suri in E1: 10 ok
expect no ask
expect no record reading check=lights state=ok
ines in E1: 10 ok
expect record reading item=e1-combi check=lights state=ok
