# What was said counts, and the tones are heard.
at 2026-11-25 06:59
+1m
ravi in E1: pump fuel full, tones dropping, rest later
expect record reading item=e1-pump check=fuel state=ok
expect no record reading check=throttle
at 08:00
expect no nag about=E1
