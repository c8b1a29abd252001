at 2026-11-25 06:59
+1m
+50m
kill
+20m
start
expect no nag
at 08:29
expect no nag about=E1
at 08:31
expect 1 nag about=E1
