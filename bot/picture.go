package bot

import (
	"fmt"

	"crosslay/bot/chat"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// drawn is a picture that is drawn when the message is sent. Source names it:
// draw:board/<date>/<platoon>, draw:item/<item>/<date>, draw:month/<yyyy-mm>.
func drawn(source string) []chat.Picture { return []chat.Picture{{Source: "draw:" + source}} }

// picture sends the picture that is asked for.
func (d *decision) picture(req reply.Request) {
	today := dept.DateOf(d.local(d.now))
	source, title := "", ""
	switch req.Kind {
	case reply.RequestPicture:
		source, title = fmt.Sprintf("item/%s/%s", req.Item, today), wording.ItemYear(d.thing(req.Item))
	case reply.RequestMonth:
		source, title = fmt.Sprintf("month/%04d-%02d", today.Year, today.Month), wording.Month(today)
	default:
		source, title = d.board()
	}
	d.say(chat.Status, d.ev.Place, "picture", wording.Lines(title, nil))
	d.show(source)
}

// board is the source and the title of the board of the shift on duty.
func (d *decision) board() (source, title string) {
	shift := d.Rota.At(d.now)
	return fmt.Sprintf("board/%s/%s", shift.Date, shift.Platoon), wording.Board(shift.Date, shift.Platoon)
}

// show puts a picture to the last message.
func (d *decision) show(source string) {
	if n := len(d.out.Messages); n > 0 {
		d.out.Messages[n-1].Pics = drawn(source)
	}
}
