# The AED's pads and photo are asked on day 1 only.
at 2026-11-30 06:59
+1m
expect no prompt about=E2 text="pads"
at 2026-12-01 07:00
expect prompt about=E2 text="pads"
elke in E2: pads expire 2026-11
expect record reading item=e2-aed check=pads state=fault
