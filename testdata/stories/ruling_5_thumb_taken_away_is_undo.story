# A thumbs-up passes what a blanket passes; taken away, it is an undo.
at 2026-11-25 06:59
+2m
ines reacts 👍 E1
expect record reading item=e1-pump check=throttle state=ok
expect no record reading item=e1-pump check=fuel
ines unreacts
expect edited prompt about=E1
