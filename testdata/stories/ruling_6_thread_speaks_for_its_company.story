# In the thread of Engine 1 a word of Truck 1's crew is about Engine 1.
at 2026-11-25 06:59
+1m
suri in E1: 4 ok
expect record reading item=e1-pump check=throttle state=ok company=E1
expect no record reading company=T1
