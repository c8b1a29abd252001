# Saw and tool were used: the tool's after-use check is asked.
at 2026-11-25 06:59
+1m
ines in E1: back, used the saw and the combi
expect ask in=E1 text="CT-01"
