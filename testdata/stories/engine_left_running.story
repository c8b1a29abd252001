# Nobody said "off": a word when the range is over, once.
at 2026-11-25 06:59
+1m
ravi in E1: started the pump
+10m
expect 1 nudge in=E1 about=e1-pump
+1h
expect no nudge
