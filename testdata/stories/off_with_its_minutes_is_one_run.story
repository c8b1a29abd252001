# "Saw off, ran 4" is one run of 4 minutes.
at 2026-11-25 06:59
+1m
ravi in E1: started the saw
+4m
ravi in E1: saw off ran 4
expect 1 record run item=e1-saw
expect 1 record reading item=e1-saw check=run
greta direct: status CS-01
expect status text="71.1"
