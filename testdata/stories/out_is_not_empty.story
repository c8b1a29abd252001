# Out of service is no reading of the tank.
at 2026-11-25 06:59
+1m
ines in E1: PU-01 is out of service
expect no record reading check=fuel
