# "Copy", "will do" and thanks after a reminder pass nothing.
at 2026-11-25 06:59
+1m
at 07:46
ravi in E1: copy
expect no record reading
ravi in E1: on it
expect no record reading
ravi in E1: good morning
expect no record reading
ravi in E1: doing it now
expect no record reading
ravi in E1: ok thanks
expect no record reading
