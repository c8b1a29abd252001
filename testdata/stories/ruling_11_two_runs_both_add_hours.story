# 3 and 7 minutes: both add to the 46.5 hours, the second counts.
at 2026-11-25 06:59
+1m
ravi in E1: started the pump
+3m
ravi in E1: pump off
expect record run item=e1-pump value=3
+20m
ravi in E1: started the pump
+7m
ravi in E1: pump off
expect record run item=e1-pump value=7
greta direct: status PU-01
expect status text="46.7"
