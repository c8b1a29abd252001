# Plain words of the shop: just dirt is no fault, and a spare is put on a company.
at 2026-11-25 06:59
+1m
ines in E1: left hose has a cut
expect defect room=#shop
wim in #shop: put HH-90 on E1
expect record service item=* state=placed
expect news in=E1 text="HH-90"
wim in #shop: put HH-90 on E2
expect ask in=#shop text="no open defect"
wim in defect 1: its fine, just dirt
expect record defect state=not_a_fault
