# The crew is told that a fault went to the shop, also where no check asks about it.
at 2026-11-25 06:59
+1m
ines in E1: the cord of the power unit is frayed
expect defect room=#shop about=e1-pump.other
expect echo in=E1 text="to the shop"
expect no echo text="Not understood"
