# Six minutes every other day of 150: when it falls under 3/4 if nobody fills it.
at 2026-11-25 06:59
+1m
ines in E1: pump ran 6 min, fuel full
+1d
+1d
ana in E1: pump ran 6 min
+1d
+1d
tess in E1: pump ran 6 min
+1d
+1d
ines in E1: pump ran 6 min
+1d
+1d
ana in E1: pump ran 6 min
greta in #officers: fuel
expect status in=#officers text="Engine 1 PU-01: fuel full (Nov 25), about 126 min left; under 3/4 about "
