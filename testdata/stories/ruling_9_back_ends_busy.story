at 2026-11-25 06:59
+1m
ines in E1: on a run
+30m
ines in E1: back
at 10:16
expect no escalation key=nag/on_call/*
