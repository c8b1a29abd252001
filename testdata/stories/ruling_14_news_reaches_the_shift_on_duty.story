# Repaired two days later: the company's shift of that day is told.
at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
at 2026-11-27 10:00
wim in defect 1: repaired
expect 1 news in=E1 about=e1-hose-left.cover
