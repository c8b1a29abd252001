# The company at two hours and at four; a good run ends it.
at 2026-11-25 06:59
+1m
at 09:00
expect nag in=E1 about=e1-pump.run
at 09:30
ravi in E1: pump ran 6 min
expect record run item=e1-pump state=ok
at 11:00
expect no record reminder item=e1-pump check=run
expect record reminder item=e1-saw check=run state=sent
