# Poured in with the tool closed and read again: fixed, and recorded so.
at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid was low with the tool closed, topped it up, ok now
expect record reading item=e1-pump check=fluid state=ok
expect no defect
