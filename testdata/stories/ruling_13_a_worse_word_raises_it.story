at 2026-11-25 06:59
+1m
ines in E1: left hose has a nick in the cover
expect defect room=#shop
expect no outage
ravi in E1: left hose cover is cut
expect no defect
expect report in="defect 1"
expect outage room=#officers
# out of service, it is left out of the next prompt
+1d
expect prompt about=E1 text="HH-01"
