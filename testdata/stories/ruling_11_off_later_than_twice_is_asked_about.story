at 2026-11-25 06:59
+1m
ravi in E1: started the pump
+10m
expect nudge about=e1-pump
+15m
ravi in E1: pump off
expect ask in=E1
expect no record run
expect no record reading check=run state=ok
ravi in E1: pump ran 8 min
expect record run item=e1-pump value=8 state=ok
