# Fluid poured in with the tool open is not fixed.
at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid was low with the tool open, topped it up
expect no record reading check=fluid state=ok
expect ask in=E1
expect no defect
