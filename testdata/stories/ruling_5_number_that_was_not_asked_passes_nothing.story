# Engine 1 has 20 checks: "25 ok" is no "all good".
at 2026-11-25 06:59
+1m
ravi in E1: 25 ok
expect no record reading state=ok
ravi in E1: 18-25 ok
expect no record reading item=e1-pump
