at 2026-11-25 06:59
+1m
ravi in E1: pump ran 7 min
expect record run item=e1-pump state=ok
at 2026-11-26 07:00
at 10:01
expect no escalation about=e1-pump.run
expect escalation about=e1-saw.run
