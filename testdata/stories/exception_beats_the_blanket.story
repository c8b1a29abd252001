at 2026-11-25 06:59
+1m
ines in E1: all good except the left hose, nick in the cover
expect record reading item=e1-hose-left check=cover state=fault
expect record reading item=e1-hose-right check=cover state=ok
expect 1 defect about=e1-hose-left.cover
