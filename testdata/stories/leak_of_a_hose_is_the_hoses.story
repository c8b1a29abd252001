at 2026-11-25 06:59
+1m
ravi in E1: left hose is leaking
expect no record service item=e1-pump
expect defect room=#shop text="HH-01"
