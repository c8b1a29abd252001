at 2026-11-25 06:59
+1m
ravi in E1: left hose has a nick in the cover
wim in defect 1: need it here
expect news in=E1
ravi in E1: ok
expect nothing
ravi in E1: all good
ravi in E1: ok
expect ask in=E1 text="Open:"
