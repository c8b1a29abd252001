at 2026-11-25 06:59
+1m
wim in #shop: PU-02 serviced yesterday
expect record service item=t1-pump state=serviced note="on 2026-11-24"
wim in #shop: PU-03 was serviced last week
expect no record service
expect ask in=#shop text="PU-03 serviced"
wim in #shop: will service PU-03 tomorrow
expect no record service
ines in E1: who covers us
expect answer in=E1 text="Officers ask that"
expect no record reading
ines direct: who covers us
expect status in=direct text="Cover for Engine 1"
