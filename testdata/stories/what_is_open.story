# The crew asks what is left and gets the numbers.
at 2026-11-25 06:59
+1m
ines in E1: all good
ines in E1: what's left?
expect no record reading
expect status in=E1 text="tip gap"
