# Eight companies that have not checked by ten: the officers get one list.
at 2026-11-25 06:59
+1m
ravi in E1: pump fuel half
at 10:00
expect 1 escalation room=#officers text="Brush 4: 7 checks open"
at 10:01
expect no escalation
