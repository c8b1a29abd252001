# The later figure stands; low by one and full by another of the crew is asked about.
at 2026-11-25 06:59
+1m
ravi in E1: 1 half
expect record reading check=fuel state=fault value=0.5
ines in E1: 1 full
expect record reading check=fuel state=ok value=1
