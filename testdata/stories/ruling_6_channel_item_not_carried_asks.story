# Engine 1 carries no generator: ask which company.
at 2026-11-25 06:59
+1m
ravi in #station-1: generator oil ok
expect ask
expect no record reading
