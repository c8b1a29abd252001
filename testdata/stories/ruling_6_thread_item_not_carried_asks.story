at 2026-11-25 06:59
+1m
ravi in E1: generator oil is low
expect ask in=E1
expect no record reading state=ok
expect no defect
