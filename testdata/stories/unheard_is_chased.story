# Nobody answers: the company is reminded, then the officers are told.
at 2026-11-25 06:59
+1m
at 08:30
expect nag about=E1
at 10:05
expect escalation room=#officers
