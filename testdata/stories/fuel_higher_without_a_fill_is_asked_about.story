# 3/4 yesterday, full today, and nobody said "filled": asked, not recorded.
at 2026-11-25 06:59
+1m
ravi in E1: pump fuel 3/4
at 2026-11-26 07:00
+1m
ines in E1: pump fuel full
expect ask in=E1 text="Filled since?"
expect no record reading check=fuel state=ok
ines in E1: yes, topped it off last night
expect record reading item=e1-pump check=fuel state=ok value=1 note="filled by the crew"
expect no ask
