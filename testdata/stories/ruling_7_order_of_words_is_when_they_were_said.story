at 2026-11-25 06:59
+1m
kill
ravi in E1: 1 half
+1m
ravi in E1: 1 full, topped it off
+20m
start
expect record reading item=e1-pump check=fuel state=ok value=1
+4h
expect no nag about=e1-pump.fuel
