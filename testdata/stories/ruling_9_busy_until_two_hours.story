# Busy mutes; after two hours one reminder to the company, and the officers 75 minutes later.
at 2026-11-25 06:59
+2m
ravi in E1: on a call
expect answer in=E1
+1h
expect no nag about=E1
expect record reminder company=E1 state=busy
at 08:59
expect no nag about=E1
at 09:02
expect 1 nag in=E1 about=E1
at 10:02
at 10:17
expect escalation room=#officers about=E1
