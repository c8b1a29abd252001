# What the shop calls no fault counts as one no more; the crew looks at it again.
at 2026-11-25 06:59
+1m
ines in E1: chain is dull
expect defect room=#shop
greta direct: status
expect status text="Engine 1: 19 checks open, 1 fault"
wim in defect 1: not a fault
expect news in=E1 text="Look at it again"
expect record reading item=e1-saw check=chain state=open
greta direct: status
expect status text="Engine 1: 19 checks open, 1 to be looked at again"
expect no status text="1 fault"
greta direct: status Engine 1
expect status text="to be looked at again, the shop found no fault: 19 CS-01 chain"
expect no status text="fault: CS-01"
# anybody of the crew may pass it now, and what they find anew is a fault
ravi in E1: chain ok
expect record reading item=e1-saw check=chain state=ok
expect no ask
greta direct: status
expect no status text="looked at again"
+1m
ines in E1: chain is dull
expect defect room=#shop
greta direct: status
expect status text="1 fault"
