# Both words reach the bot late; the run lasted from the one to the other.
at 2026-11-25 06:59
+1m
kill
ravi in E1: started the pump
+7m
ravi in E1: pump off
+30m
start
expect record run item=e1-pump state=ok value=7
expect no ask
