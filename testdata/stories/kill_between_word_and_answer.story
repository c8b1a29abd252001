# Killed and started again and again: nothing is said or recorded twice.
at 2026-11-25 06:59
+1m
kill
ravi in E1: left hose has a nick in the cover
start
expect 1 defect room=#shop
expect 1 echo in=E1
expect 1 record reading item=e1-hose-left
kill
start
expect no defect
expect no echo
expect no record reading
