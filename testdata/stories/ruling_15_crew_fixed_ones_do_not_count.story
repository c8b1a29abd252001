# Loose chains that the crews tightened are nobody's fleet matter.
at 2026-11-25 06:59
+1m
ravi in E1: chain was loose, tightened it
expect record reading item=e1-saw check=chain state=ok
suri in T1: saw chain was loose, tightened it
tomas in E2: chain was loose, tightened it
gus in L3: chain is dull
expect defect about=l3-saw.chain
expect no fleet
