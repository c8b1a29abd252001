# Fuel is the crew's: topped off is ok, recorded as fixed, and bothers nobody.
at 2026-11-25 06:59
+1m
ravi in E1: pump fuel was low, topped it off
expect record reading item=e1-pump check=fuel state=ok note="fixed by the crew"
expect no defect
+4h
expect no nag about=e1-pump.fuel
