at 2026-11-25 06:59
+1m
ravi in E1: pump fuel is half
expect record reading item=e1-pump check=fuel state=fault value=0.5
expect no defect
+30m
ravi in E1: pump fuel topped off
expect record reading item=e1-pump check=fuel state=ok
+4h
expect no nag about=e1-pump.fuel
expect no escalation text="fuel"
