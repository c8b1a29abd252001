# Wednesday; "until Friday" ends with that working day.
at 2026-11-25 06:59
+1m
ines in E1: left hose has a nick in the cover
wim in defect 1: seen
wim in defect 1: waiting for parts until Friday
expect news in=E1
at 2026-11-27 15:59
expect no nag key=nag/parts_overdue/*
at 2026-11-30 07:05
expect nag room=#shop key=nag/parts_overdue/*
