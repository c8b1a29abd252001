at 2026-11-25 06:59
+1m
ravi in E1: pump ran 7 min
ravi in E1: throttle is loose
wim in defect: repaired, back in service
greta in #officers: how is PU-01 doing?
expect status text="Not watched long enough"
at 2026-12-26 07:00
+1m
greta in #officers: how is PU-01 doing?
expect status text="1 failure in 31 days"
expect status text="engine hours"
greta in #officers: which pump is worst
expect status text="PU-01"
greta in #officers: warm-up record of PU-01
expect status text="1 of 31 shifts"
