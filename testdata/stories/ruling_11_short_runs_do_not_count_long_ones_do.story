at 2026-11-25 06:59
+1m
ines in E1: saw ran 1 min
expect record run item=e1-saw
expect no record reading item=e1-saw check=run state=ok
ines in E1: pump ran 15 min
expect record run item=e1-pump
expect record reading item=e1-pump check=run state=fault
expect no defect
at 11:05
expect nag about=e1-saw.run
expect no nag about=e1-pump.run
