# Started at 06:55, off at 07:03 in the old thread: one run of 8 minutes.
at 2026-11-24 06:59
+1m
at 2026-11-25 06:55
milo in E1: started the pump
at 07:03
milo in 3: pump off
expect record run item=e1-pump value=8
