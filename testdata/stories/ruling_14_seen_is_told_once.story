at 2026-11-25 06:59
+1m
ines in E1: left hose has a nick in the cover
wim in defect 1: seen
expect 1 news in=E1
pilar in defect 1: seen
expect no news
