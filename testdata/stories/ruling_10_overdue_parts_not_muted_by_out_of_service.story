at 2026-11-25 06:59
+1m
ravi in E1: left hose cover is cut
wim in defect 1: parts on order until Friday
at 2026-11-30 07:01
expect nag in="defect 1"
