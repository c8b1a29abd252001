# A drip is maintenance, a spray is out of service.
at 2026-11-25 06:59
+1m
ravi in E1: pump leaks, a drip
expect defect about=e1-pump.leaks
expect no outage
suri in T1: pump is spraying fluid
expect defect about=t1-pump.leaks
expect outage room=#officers about=t1-pump
