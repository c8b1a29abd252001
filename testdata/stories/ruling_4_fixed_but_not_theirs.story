# What the sheet gives to the shop stays a fault for the shop, with their words.
at 2026-11-25 06:59
+1m
ines in E1: throttle was loose, tightened it
expect record reading item=e1-pump check=throttle state=fault
expect defect room=#shop text="tightened it"
# what it gives to the crew is ok once they fixed it
ines in E1: saw chain was loose, snugged it up
expect record reading item=e1-saw check=chain state=ok
expect no defect
