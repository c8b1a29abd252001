at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
at 08:30
ravi in E1: on a call
at 09:01
expect nag in="defect 1"
