# Pass to fault: at once, whoever says it. Back: not by just anybody.
at 2026-11-25 06:59
+1m
ines in E1: saw bar oil ok
expect record reading item=e1-saw check=bar_oil state=ok
ravi in E1: saw bar oil is low
expect record reading item=e1-saw check=bar_oil state=fault
# somebody else's ok makes it unsure and asks once
omar in E1: saw bar oil is ok
expect record reading item=e1-saw check=bar_oil state=unsure
expect ask in=E1
# the company's officer may say so
ines in E1: saw bar oil is ok
expect record reading item=e1-saw check=bar_oil state=ok
