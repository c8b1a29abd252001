# The engine that was just shut down is the one whose fuel is told next.
at 2026-11-25 06:59
+1m
ravi in E1: started the pump
+7m
ravi in E1: off
ravi in E1: fuel 7/8
expect no ask
expect record reading item=e1-pump check=fuel state=ok value=0.875
