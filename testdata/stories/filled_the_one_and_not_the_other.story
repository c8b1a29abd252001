# Two tanks rose; one was filled, by name. A bare yes answers for both.
at 2026-11-25 06:59
+1m
ravi in E1: pump fuel 3/4, saw fuel half
ravi in E1: saw fuel 3/4
at 2026-11-26 07:00
+1m
ines in E1: pump fuel full, saw fuel full
expect ask in=E1 text="3/4 on Wed Nov 25"
expect no record reading check=fuel state=ok item=e1-pump
ines in E1: topped off the pump
expect record reading check=fuel state=ok item=e1-pump value=1
expect no record reading item=e1-saw
