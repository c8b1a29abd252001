at 2026-11-25 06:59
+1m
soledad in #officers: take CT-01 out of service
expect outage room=#officers about=e1-combi
expect record service item=e1-combi state=out_of_service
greta in #officers: put CT-01 back in service
expect refusal
expect no record service
soledad in #officers: put CT-01 back in service
expect record service item=e1-combi state=in_service
expect outage room=#officers about=e1-combi
