at 2026-11-25 06:59
+1m
ravi in E1: started the pump and the saw
+4m
ravi in E1: saw off
expect record run item=e1-saw value=4
+4m
ravi in E1: pump off
expect record run item=e1-pump value=8
