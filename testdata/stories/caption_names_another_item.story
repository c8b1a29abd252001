# A caption that names another item than the report before is about that item.
at 2026-11-25 06:59
+1m
ines in E1: blades have a nick
expect defect about=e1-combi.blades
ines in E1 with photo: hose leak
expect no report in="defect 1"
expect ask in=E1 text="HH-01"
# the answer is the report, and the photo goes with it
ines in E1: HH-01
expect 1 defect room=#shop about=e1-hose-left.* text="1 photo"
# its place is answer enough
ravi in E1 with photo: hose leak
expect ask in=E1 text="HH-01"
+1m
ravi in E1: right
expect echo in=E1 text="HH-02 to the shop"
expect 1 defect room=#shop about=e1-hose-right.* text="1 photo"
# a photo that nobody says anything about makes no report
+1m
ines in E1 with photo: CS-01
expect ask in=E1 text="What is wrong with chain saw CS-01?"
ines in E1: never mind
expect no defect
ines in E1: chain is dull
expect defect about=e1-saw.chain text="1 photo"
