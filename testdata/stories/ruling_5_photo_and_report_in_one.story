# A photo whose caption is the report itself: one defect.
at 2026-11-25 06:59
+1m
ravi in E1 with photo: left hose has a nick in the cover
expect 1 defect room=#shop
expect record reading item=e1-hose-left check=cover state=fault
