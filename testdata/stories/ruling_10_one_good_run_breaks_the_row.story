at 2026-11-25 06:59
+1m
ravi in E1: pump ran 7 min
expect record run item=e1-pump state=ok
at 2026-11-26 07:00
at 10:01
expect no record reminder item=e1-pump check=run note=officers
expect record reminder item=e1-saw check=run state=sent note=officers
