at 2026-11-25 06:59
+1m
ines in E1: all good
at 07:45
expect nag about=E1 text="tip gap"
