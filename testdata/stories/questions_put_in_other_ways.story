# Questions of officers and of the shop, as people put them.
at 2026-11-25 06:59
+1m
greta in #officers: status E9
expect ask text="There is no E9."
expect ask text="Engine 1, "
greta in #officers: status engine 9
expect ask text="There is no Engine 9."
greta in #officers: whos not ready
expect status text="Engine 1: NOT CHECKED"
greta in #officers: is engine 1 good to go?
expect status text="Status of Engine 1"
wim in #shop: how many open
expect status text="no open defects"
# talk among officers about a company that is not theirs is left alone
greta in #officers: met the guys of E9 yesterday
expect nothing
