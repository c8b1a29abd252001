# One morning of Engine 1: checked, a nicked hose, seen, repaired, confirmed.
at 2026-11-25 06:59
+1m
expect prompt in=#station-1 about=E1
expect record prompt company=E1
expect 8 prompt

ines in E1: started the pump
expect echo in=E1
ines in E1: all good
expect echo in=E1
expect record reading item=e1-pump check=throttle state=ok
expect no record reading check=fuel
expect edited prompt about=E1

ines in E1: 1 full, gap 1/4 in, 17 full
expect record reading item=e1-pump check=fuel state=ok value=1
expect record reading item=e1-combi check=gap state=ok value=0.25

# A nick is the shop's; the hose stays in service.
ines in E1: left hose has a nick in the cover
expect record reading item=e1-hose-left check=cover state=fault
expect defect room=#shop
expect no outage

+7m
ines in E1: pump off
expect record run item=e1-pump
ravi in E1: saw ran 4 min
expect record run item=e1-saw

wim in defect 1: seen
expect news in=E1
wim in defect 1: repaired, covered the spot
expect news in=E1
expect record defect state=repaired

greta direct: status
expect status in=direct

# The next shift's check confirms the repair.
at 2026-11-26 07:00
expect prompt about=E1
