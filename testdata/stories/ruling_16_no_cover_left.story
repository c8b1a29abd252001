# Every thermal camera but Ladder 3's: after that is out too, nobody covers, and it says so.
at 2026-11-25 06:59
+1m
tomas in E2: camera picture is dead
expect outage about=e2-tic text="Ladder 3"
gus in L3: camera picture is dead
expect outage about=l3-tic text="nobody"
