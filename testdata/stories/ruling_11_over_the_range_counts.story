# Over the range: counted, a word about it, no defect, a fault that needs nobody else.
at 2026-11-25 06:59
+1m
ravi in E1: pump ran 14 min
expect record reading item=e1-pump check=run state=fault value=14
expect record run item=e1-pump value=14
expect echo in=E1
expect no defect
at 09:01
expect no nag about=e1-pump.run
at 11:01
expect no nag about=e1-pump.run
