at 2026-11-25 06:59
+1m
greta in #officers: board
expect status in=#officers text="Board, C shift"
greta in #officers: picture PU-01
expect status in=#officers text="Power unit PU-01"
greta direct: month
expect status in=direct text="November 2026"
