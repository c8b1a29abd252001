at 2026-11-25 06:59
+1m
ines in E1: all good
ines in E1: 1 full, 12 1/4 in, 17 full
+1h
expect no nag about=E1
+1h
expect nag in=E1 about=e1-pump.run
expect record reminder item=e1-pump check=run state=sent
expect record reminder item=e1-saw check=run state=sent
+4h
expect no escalation text="Engine 1"
