# Filled in November and not renewed since: after 60 days it is named, to the crew and to the officers.
at 2026-11-25 06:59
+1m
ravi in E1: pump fuel was low, topped it off, its full
expect record reading item=e1-pump check=fuel state=ok value=1
at 2027-01-20 07:00
expect no prompt text="Old fuel"
at 2027-01-25 07:00
expect prompt about=E1 text="Old fuel: PU-01 about 61 days (limit 60): drain, refill"
greta in #officers: fuel
expect status text="Old fuel: PU-01"
at 08:30
expect summary text="Old fuel"
# Half of it replaced: mixed, about half as old.
at 2027-01-28 07:00
+1m
ravi in E1: pump fuel was half, filled it up to full
+1d
greta in #officers: fuel
expect no status text="Old fuel: PU-01"
