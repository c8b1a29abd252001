at 2026-11-25 06:59
+1m
ines in E1: fuel is good
expect ask in=E1
ines in E1: fuel is good
expect no ask
