# Filled up with the tool open: it comes out at the cap, and that is no leak.
at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid was low with the tool open, topped it off
expect ask in=E1 text="up to 9.8 fl oz comes out"
expect no defect
expect no record reading item=e1-pump check=fluid state=ok
