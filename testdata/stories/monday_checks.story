at 2026-11-29 06:59
+1m
expect no prompt about=E1 text="air filter"
at 2026-11-30 07:00
expect prompt about=E1 text="air filter"
