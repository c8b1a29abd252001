# Ines has said nothing: there is nothing of hers to take back.
at 2026-11-25 06:59
+1m
ravi in E1: 4 ok
ines in E1: undo
expect answer in=E1
expect no record reading
