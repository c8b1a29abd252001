# Topped up twice within two weeks: the shop is told, with the rate.
at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid was low, tool closed, topped it off
expect record reading item=e1-pump check=fluid state=ok note="fixed by the crew"
expect no defect
at 2026-12-02 07:00
+1m
ravi in E1: hydraulic fluid was low, tool closed, topped it off
expect record reading item=e1-pump check=fluid state=ok
expect echo in=E1 text="it goes somewhere"
expect 1 defect room=#shop text="Loses about 12 fl oz a week"
# Taken back: the shop hears that too, and decides.
ravi in E1: undo
expect report in="defect 1" text="Withdrawn"
ravi in E1: hydraulic fluid was low, tool closed, topped it off
expect no defect
expect report in="defect 1" text="Reported again"
