# Fluid that leaks is a leak, whatever it is called: never the crew's to top up.
at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid leaking from the pump
expect record reading item=e1-pump check=leaks state=fault
expect defect room=#shop about=e1-pump.leaks
suri in T1: fuel dripping from the pump
expect record reading item=t1-pump check=leaks state=fault
expect defect room=#shop about=t1-pump.leaks
