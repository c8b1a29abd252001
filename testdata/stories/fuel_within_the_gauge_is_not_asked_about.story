# One step of the gauge (an eighth) means nothing; neither does what runs explain, or a call.
at 2026-11-25 06:59
+1m
ravi in E1: pump fuel 7/8, saw fuel 3/4, saw ran 4 min
at 2026-11-26 07:00
+1m
ines in E1: pump fuel full, saw fuel 3/4
expect no ask
expect record reading item=e1-pump check=fuel value=1
ines in E1: used the combi
at 2026-11-27 07:00
+1m
ana in E1: pump fuel 3/8
expect no ask text="leak"
expect record reading item=e1-pump check=fuel state=fault
at 2026-11-28 07:00
+1m
# low yesterday, and the crew was told to fill it: full is what was expected
omar in E1: pump fuel full
expect no ask text="Filled"
expect record reading item=e1-pump check=fuel state=ok
