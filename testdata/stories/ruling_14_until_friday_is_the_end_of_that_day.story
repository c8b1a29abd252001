# Wednesday: "until Friday"; the ladder opens when Friday's working day ends.
at 2026-11-25 06:59
+1m
ravi in E1: left hose cover has a nick
wim in defect 1: parts on order until Friday
expect record defect state=parts
expect news in=E1
at 2026-11-27 15:59
expect no nag in="defect 1"
at 2026-11-30 07:01
expect nag in="defect 1"
at 2026-12-01 07:01
expect escalation room=#officers about=e1-hose-left.cover
