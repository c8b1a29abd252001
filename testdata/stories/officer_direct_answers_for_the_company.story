at 2026-11-25 06:59
+1m
ines direct: throttle ok
expect record reading item=e1-pump check=throttle state=ok company=E1
