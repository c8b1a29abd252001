# A company's officer may take an item out, not put it back.
at 2026-11-25 06:59
+1m
ines in E1: take CT-01 out of service
expect outage room=#officers about=e1-combi
ines in E1: put CT-01 back in service
expect refusal
expect no record service
