# A photo with the number of a photo check answers it.
at 2026-12-01 06:59
+1m
odile in E2 with photo: 17 here
expect record reading check=photo
