# None in two shifts: the officers hear of it three hours into the second.
at 2026-11-25 06:59
+1m
at 2026-11-26 07:00
expect prompt about=E1
at 09:59
expect no escalation text="NO RUN IN TWO SHIFTS"
at 10:01
expect escalation room=#officers text="Engine 1: NO RUN IN TWO SHIFTS: PU-01"
