# A picture with nothing said and nothing reported: asked what it shows.
at 2026-11-25 06:59
+1m
ravi in E1 with photo:
expect ask in=E1
expect no defect
expect no record reading
