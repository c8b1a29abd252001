# Two hoses: asked which, and the answer is the report.
at 2026-11-25 06:59
+1m
ravi in E1: hose has a nick
expect record reading check=cover state=unsure
expect 1 ask in=E1
+1m
ravi in E1: left
expect defect room=#shop about=e1-hose-left.cover
