# All is answered: nothing is owed, the prompt says so.
at 2026-11-25 06:59
+1m
ines in E1: all good
ines in E1: pump full, saw full, gap 1/4 in
ines in E1: pump ran 6 min, saw ran 3 min
expect edited prompt about=E1
+24h
expect no record reminder company=E1
