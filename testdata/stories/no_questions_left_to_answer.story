# The prompt points to questions only while there are any: a run that was too short
# is none.
at 2026-11-25 06:59
+1m
ines in E1: all good, 1 full, 2 ok, 3 ok, 12 0.3125 in, 17 full, 18 full
+1m
ines in E1: pump ran 1 min, saw ran 1 min
expect edited prompt text="TOO SHORT"
expect no edited prompt text="Answer the questions"
