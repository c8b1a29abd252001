at 2026-11-25 06:59
+1m
ines in E1: all good
ines in E1: 1 full, 12 1/4 in, 17 full
+1h
expect no nag about=E1
+1h
expect nag about=e1-pump.run
expect nag about=e1-saw.run
+4h
expect no escalation about=E1
