# Both tell of the same run, within minutes: it is booked once.
at 2026-11-25 06:59
+1m
at 07:10
ravi in E1: pump ran 7 min
ines in E1: pump ran 7 min
greta direct: status PU-01
expect status text="46.6"
