at 2026-11-25 06:59
+1m
ines in E1: left hose has a cut in the cover
expect outage room=#officers
ines in E1: left hose is back in service
expect refusal
soledad in #officers: put HH-01 back in service
expect refusal
wim in defect 1: repaired, new hose, back in service
expect outage room=#officers
