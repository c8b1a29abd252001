# Still on it: the two hours count from the last word.
at 2026-11-25 06:59
+1m
ravi in E1: on a call
at 08:30
ravi in E1: still on a call
at 10:29
expect no nag about=E1
at 10:31
expect 1 nag in=E1 about=E1
