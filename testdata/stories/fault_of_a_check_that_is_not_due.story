# The air filter is not asked today, but a bad one is heard.
at 2026-11-25 06:59
+1m
ravi in E1: saw air filter is torn
expect record reading item=e1-saw check=filter state=fault
