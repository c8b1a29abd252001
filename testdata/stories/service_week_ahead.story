# The list on request, the ladder for what is overdue, and the shop's word that it is done.
at 2027-01-11 06:59
+1m
wim in #shop: week ahead
expect status in=#shop text="fan FN-01"
at 2027-01-13 08:00
+1d
expect nag in=#shop text="Service overdue"
greta in #officers: when is FN-01 due?
expect status text="OVERDUE"
ravi direct: FN-01 serviced
expect no record service
wim in #shop: FN-01 serviced
expect record service item=t1-fan state=serviced
expect echo in=#shop text="Jan 14, 2028"
greta direct: FN-01 serviced
expect refusal
+1d
expect no nag in=#shop text="FN-01"
