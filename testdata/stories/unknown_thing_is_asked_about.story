# Something that is on no sheet: asked on which item; nothing else is touched.
at 2026-11-25 06:59
+1m
ravi in E1: couldn't check the throttle
expect ask
ravi in E1: somebody broke the siren
expect no record reading
expect ask in=E1
