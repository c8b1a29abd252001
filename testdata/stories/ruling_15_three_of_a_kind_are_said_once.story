at 2026-11-25 06:59
+1m
ines in E1: left hose has a nick in the cover
expect no fleet
ines in E1: right hose has a nick in the cover
expect no fleet
mirek in T1: left hose has a nick in the cover
expect 1 fleet
mirek in T1: right hose has a nick in the cover
expect no fleet
