# Odd words are kept, and nothing passes for them.
at 2026-11-25 06:59
+1m
ines in E1: 🔥
expect no record reading state=ok
ines in E1: let me know if the throttle is loose
expect no record reading
ines in E1: same as yesterday
expect no record reading state=ok
ines in E1: guard fine i guess
expect no record reading state=ok
