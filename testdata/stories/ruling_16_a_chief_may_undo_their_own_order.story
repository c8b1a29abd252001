at 2026-11-25 06:59
+1m
soledad in #officers: take PU-01 out of service
expect outage room=#officers
soledad in #officers: put PU-01 back in service
expect outage room=#officers
expect no refusal
