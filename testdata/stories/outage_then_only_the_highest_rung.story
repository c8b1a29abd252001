# Down from 07:10 to 10:30: only the highest rung goes out, the lower are overtaken.
at 2026-11-25 06:59
+1m
+10m
kill
at 10:30
start
expect 1 escalation text="Engine 1: "
expect no nag about=E1
expect 2 record reminder company=E1 state=overtaken note=company
kill
start
expect no escalation
