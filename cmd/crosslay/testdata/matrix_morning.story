# A morning of Engine 1 on a homeserver, in which the bot is killed again and
# again, and with the last kill the homeserver under it. The lines are also played
# on the terminal. A server that is killed may lose what it has just accepted, so
# the last words before that are a question, which leaves no record.
ines in E1: started the pump
ines in E1: all good
ines in E1: 1 full, gap 1/4 in, 17 full
kill
ravi in E1: left hose has a nick in the cover
ravi in E1 with photo: the nick
start
ravi in E1: saw ran 4 min
kill
start
ines in E1: 6 low
ines edits last: 6 ok
ravi in E1: oil is low
ravi deletes last
ines in E1: pump off
kill
start
wim in defect 1: seen
wim in defect 1: waiting for parts until friday
greta direct: status
ines reacts 👍 E1
ines unreacts
wim in defect 1: repaired, covered the spot
ravi in #room-st1: engine 1 right hose has a cut in the cover
kill
start
wim in defect 2: need it at the shop
ines in E1: who covers?
kill
start
greta direct: out of service
