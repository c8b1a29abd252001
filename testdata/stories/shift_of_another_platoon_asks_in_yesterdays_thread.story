# An edit, a thumb and its removal on yesterday's prompt leave today's alone.
at 2026-11-24 06:59
+1m
at 2026-11-25 07:00
+1m
milo reacts 👍 3
expect record reading item=e1-pump check=throttle state=ok
ines direct: status Engine 1
expect status text="4 PU-01 throttle"
milo unreacts
expect record reading item=e1-pump check=throttle state=open
