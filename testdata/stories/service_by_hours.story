# PU-01 has 8 of its 50 hours left since the last service; three hours a shift use them up.
at 2026-11-25 06:59
+1m
greta in #officers: when is PU-01 due?
expect status text="or sooner by hours: 8 left"
ines in E1: on a call
+3h
ines in E1: back, pump ran 180 min on the call
expect record run item=e1-pump
at 2026-11-26 07:00
+1m
ines in E1: pump ran 180 min on a call
at 2026-11-27 07:00
+1m
ana in E1: pump ran 150 min on a call
at 2026-11-28 07:00
+1m
greta in #officers: when is PU-01 due?
expect status text="Service OVERDUE since Nov 27, 2026 (engine hours used up)"
at 2026-11-30 08:31
expect summary in=#shop text="OVERDUE 3 days: power unit PU-01"
expect nag in=#shop text="power unit PU-01"
wim in #shop: PU-01 serviced
expect echo in=#shop text="serviced at 55 engine hours"
greta in #officers: when is PU-01 due?
expect status text="or sooner by hours: 50 left"
