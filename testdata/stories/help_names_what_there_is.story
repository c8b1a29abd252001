# Helps show items of the department at hand.
at 2026-11-25 06:59
+1m
greta direct: help
expect answer text="history of PU-01"
expect no answer text="PU-07"
ines in E1: help
expect answer text="started power unit"
ines in E1: left hose has a cut
wim in defect 1: hmm
expect answer text="spare HH-90"
