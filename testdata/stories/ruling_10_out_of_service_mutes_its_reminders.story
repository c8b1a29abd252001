at 2026-11-25 06:59
+1m
ines in #officers: take PU-01 out of service
expect outage room=#officers
at 11:05
expect no nag about=e1-pump.run
expect nag about=e1-saw.run
