# Full yesterday, 7 minutes of 150 run, half today: it went somewhere.
at 2026-11-25 06:59
+1m
ravi in E1: pump ran 7 min, fuel full
at 2026-11-26 07:00
+1m
ines in E1: pump fuel 1/4, ran 6 min
expect ask in=E1 text="leak"
expect no record reading check=fuel state=fault
ines in E1: used on a call
expect record reading item=e1-pump check=fuel state=fault value=0.25
