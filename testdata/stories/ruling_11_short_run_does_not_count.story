# Under the minimum: hours and fuel, no warm-up, nobody else's business.
at 2026-11-25 06:59
+1m
ravi in E1: pump ran 3 min
expect record run item=e1-pump value=3
expect record reading item=e1-pump check=run state=fault
expect no defect
expect echo in=E1
at 09:01
expect nag about=e1-pump.run
greta direct: status PU-01
expect status text="46.5"
