at 2026-11-25 06:59
+1m
ines in E1: 1 full, 2-4 ok
at 2026-11-26 07:00
expect prompt about=E1 text="Missed last shift"
