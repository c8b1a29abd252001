at 2026-11-25 06:59
+1m
ravi in #station-1: coffee is good today
expect no record reading
ravi in #station-1: anybody seen my left glove
expect no record reading
ravi in #station-1: nice save on the pump yesterday
expect no record reading
