# Room of Station 1 is quiet at night; a defect reported then still reaches shop and officers.
at 2026-11-25 06:59
+1m
at 2026-11-26 02:00
ravi in E1: combi blade cracked
expect echo in=E1
expect defect room=#shop
expect outage room=#officers
