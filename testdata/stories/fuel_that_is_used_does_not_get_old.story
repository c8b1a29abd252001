# Run every day and always read full: it has been filled without a word, and is not old.
at 2026-11-25 06:59
+1m
ines in E1: pump fuel was low, topped it off, its full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ines in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
ana in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
+1d
tess in E1: pump ran 9 min, fuel full
greta in #officers: fuel engine 1
expect status text="PU-01: fuel full"
expect no status text="Old fuel"
