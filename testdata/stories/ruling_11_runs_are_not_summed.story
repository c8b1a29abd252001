at 2026-11-25 06:59
+1m
ravi in E1: pump ran 3 min
+30m
ravi in E1: pump ran 4 min
expect no record reading check=run state=ok
expect record run item=e1-pump value=4
at 09:01
expect nag about=e1-pump.run
