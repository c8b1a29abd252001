at 2026-11-25 06:59
+1m
ravi in E1: couldn't check the throttle
expect record reading item=e1-pump check=throttle state=unsure
expect 1 ask in=E1
+10m
ravi in E1: couldn't check the throttle
expect no ask
expect no record reading check=throttle state=ok
# Another shift, another question.
at 2026-11-26 07:00
+1m
ravi in E1: couldn't check the throttle
expect 1 ask in=E1
