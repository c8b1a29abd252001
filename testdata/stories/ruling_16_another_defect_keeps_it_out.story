# Two defects took it out; that one of them was none does not return it.
at 2026-11-25 06:59
+1m
ravi in E1: combi blade cracked
ravi in E1: combi handle does not return
expect defect about=e1-combi.handle
wim in defect 1: not a fault
expect record defect state=not_a_fault
expect no record service state=in_service
greta direct: status CT-01
expect status text="OUT OF SERVICE"
