at 2026-11-25 06:59
+1m
kill
ravi in E1: 4 ok
ravi deletes last
start
ines direct: status Engine 1
expect status text="4 PU-01 throttle"
