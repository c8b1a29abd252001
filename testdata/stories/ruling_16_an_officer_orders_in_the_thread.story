# An officer orders it in the thread of the company.
at 2026-11-25 06:59
+1m
ines in E1: take the pump out of service
expect outage room=#officers
