# The shop closes a fault that the sheet gives to it. That the crew did something
# about it changes neither the fault nor its damage, and is no second report.
at 2026-11-25 06:59
+1m
ines in E1: chain is dull
expect defect room=#shop text="DULL"
ines in E1: swapped the chain, good now
expect 1 report in="defect 1" text="Engine 1 says"
expect no report text="Reported again"
expect report text="swapped the chain, good now"
expect echo in=E1 text="noted for the shop"
expect no echo text="Got it"
expect no record reading
expect no record defect state=joined
# another of the crew says so too: it stays what it was
ravi in E1: replaced the chain
expect 1 report in="defect 1" text="Engine 1 says"
expect no record defect state=joined
greta direct: status Engine 1
expect status text="chain is dull"
# another damage is a report
ines in E1: chain brake does not hold
expect report in="defect 1" text="Reported again"
