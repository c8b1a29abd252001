# A gap wants inches: "good" does not pass it, and is not left without a word.
at 2026-11-25 06:59
+1m
ravi in E1: gap good
expect no record reading check=gap state=ok
expect ask in=E1
