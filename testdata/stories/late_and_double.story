# The same words twice say the same; an edit is read in the place of the old.
at 2026-11-25 06:59
+1m
ines in E1: 1 half
expect record reading item=e1-pump check=fuel state=fault
ines edits 1: 1 full
expect record reading item=e1-pump check=fuel state=ok
