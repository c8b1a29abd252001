package reply

import "crosslay/bot/dept"

func itemIDOf(s string) dept.ItemID { return dept.ItemID(s) }
