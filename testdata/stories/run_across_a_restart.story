at 2026-11-25 06:59
+1m
ravi in E1: started the pump
+3m
kill
+2m
start
+2m
ravi in E1: pump off
expect record run item=e1-pump value=7
