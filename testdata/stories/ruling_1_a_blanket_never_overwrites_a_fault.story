at 2026-11-25 06:59
+1m
ravi in E1: saw bar oil is low
expect record reading item=e1-saw check=bar_oil state=fault
ravi in E1: all good
expect record reading item=e1-saw check=chain state=ok
expect no record reading item=e1-saw check=bar_oil
