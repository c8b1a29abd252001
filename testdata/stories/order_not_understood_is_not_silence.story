at 2026-11-25 06:59
+1m
ravi in E1: combi blade cracked
soledad in #officers: CT-01 back in service
expect no record service
expect answer room=#officers
