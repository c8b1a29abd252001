# Not filled: read again, and what is read then stands.
at 2026-11-25 06:59
+1m
ravi in E1: pump fuel 3/4
at 2026-11-26 07:00
+1m
ines in E1: pump fuel full
expect ask in=E1 text="full now, 3/4 on"
ines in E1: no
expect ask in=E1 text="ook again"
expect no record reading check=fuel state=ok
ines in E1: pump fuel 3/4
expect record reading item=e1-pump check=fuel state=ok value=0.75
expect no ask
