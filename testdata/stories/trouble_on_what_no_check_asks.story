# The pull cord is on no sheet: the shop hears of it, with the crew's words.
at 2026-11-25 06:59
+1m
ravi in E1: pull cord broke on the saw
expect defect room=#shop text="pull cord"
