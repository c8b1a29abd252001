at 2026-11-25 06:59
+1m
ines in E1: started the saw
+5m
expect nudge in=E1
+9m
ines in E1: saw off
expect ask in=E1
expect no record run
