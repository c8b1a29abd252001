at 2026-11-25 06:59
+1m
ines in E1: on a run
expect no ask
at 07:46
expect no nag in=E1
at 08:59
expect no nag in=E1
at 09:01
expect nag in=E1 key=nag/on_call/*
at 10:16
expect escalation room=#officers key=nag/on_call/*
