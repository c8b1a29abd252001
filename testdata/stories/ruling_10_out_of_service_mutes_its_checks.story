# Out of service: no check, warm-up or fuel reminder of that item.
at 2026-11-25 06:59
+1m
ines in E1: pump fuel is half
expect record reading check=fuel state=fault
ines in E1: pump is leaking
expect outage about=e1-pump
+2h
expect no nag about=e1-pump.fuel
expect no nag about=e1-pump.run
expect record reminder item=e1-pump state=out_of_service
