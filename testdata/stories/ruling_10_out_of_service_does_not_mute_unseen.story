at 2026-11-25 06:59
+1m
ines in E1: combi blade cracked
expect outage about=e1-combi
+2h
expect nag in="defect 1"
