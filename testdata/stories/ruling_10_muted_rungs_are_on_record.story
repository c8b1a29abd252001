# Silence can be explained: the officer asks why.
at 2026-11-25 06:59
+1m
ravi in E1: on a call
at 07:46
greta direct: why no reminder to Engine 1
expect status text="busy"
