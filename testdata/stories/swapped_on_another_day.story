# A fault of an earlier day that the crew mended is answered, and is no new report.
at 2026-11-25 06:59
+1m
ines in E1: chain is dull
+1d
milo in E1: chain swapped
expect report in="defect 1" text="Engine 1 says"
expect record reading item=e1-saw check=chain state=fault
expect no record defect state=joined
ana in E1: all good
expect no record reading item=e1-saw check=chain
