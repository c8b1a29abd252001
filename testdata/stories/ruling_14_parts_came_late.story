# A new promise replaces the old one.
at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
wim in defect 1: parts on order until Friday
at 2026-11-27 09:00
wim in defect 1: parts now expected Tuesday
expect record defect state=parts
at 2026-11-30 15:00
expect no nag in="defect 1"
at 2026-12-02 07:01
expect nag in="defect 1"
