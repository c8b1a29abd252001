package reply

import (
	"regexp"
	"strings"
	"time"

	"crosslay/bot/dept"
)

// NamedItem is an item that the shop may name in a defect's thread: a spare to
// place, or the item itself.
type NamedItem struct {
	ID    dept.ItemID
	Names []string
}

// ShopWords is what a technician said of a defect. Several may hold at once.
// Repaired does not follow from Returned, nor the other way round.
type ShopWords struct {
	Seen         bool
	AtShop       bool // it is at the shop
	Wanted       bool // it is to be brought to the shop, and is not there yet
	Repaired     bool
	Returned     bool // back in service
	NotAFault    bool
	OutOfService bool
	Parts        bool      // waits for parts
	Until        dept.Date // the day promised for them; zero where none was named
	Spare        dept.ItemID
	SparePlaced  bool
	Question     bool // something was asked
	Words        string
}

// shopLimit is the length, in bytes, past which a message is kept and not read:
// nobody types that much about one defect, and its cost must stay bounded.
const shopLimit = 2000

// ReadShop reads what a technician wrote at now, in the department's zone.
// Repaired, Returned and NotAFault stand only where said plainly: what is
// denied, planned, supposed, reported of others or asked is none of them.
func ReadShop(text string, now time.Time, items []NamedItem) ShopWords {
	w := ShopWords{Words: strings.TrimSpace(text)}
	if len(text) > shopLimit {
		return w
	}
	for _, s := range shopSentences(shopSettled(text)) {
		w.Question = w.Question || s.asks
		for i := range s.clauses {
			w.clause(s, i, items)
		}
		w.until(s, dept.DateOf(now))
	}
	if w.Spare != "" {
		w.SparePlaced = true
	}
	return w
}

var (
	shopSeen = shopWords(`seen( it| this| that)?`, `saw (it|this|that|your .*|the (report|photo|picture|post))`,
		`got (it|this|that|the (report|photo|picture|message)|your .*)`,
		`(i am |we are |we am )?(working |right )?on it`, `looking( at| into| now|$)`, `(look|check) (at|into) (it|this|that)`,
		`take a look`, `copy( that)?`, `ack(nowledged)?`, `roger`, `10-4`, `noted`, `received`, `checking( it| on it)?`)
	shopWanted = shopWords(`bring (it|that|this|the \w+)( \w+)? (in|by|over|back to the shop|to the (shop|bench))`, `bring in`,
		`(need|want) (it|that|this|the \w+|to (see|have) (it|that|this|the \w+))( \w+)? (here|in|at (the |our )?(shop|bench)|at ours)`, `drop (it|that|this|the \w+) off`, `drop off`,
		`send (it|that|this|the \w+) (in|over|to us|to (the |our )?shop|down)`, `(has|have|needs|need) to come in`)
	shopAtShop = shopWords(`(have|got) (it|that|this|the \w+) (here|in|at (the )?shop|at ours)`, `(at|in) (the |our )?(shop|bench)`,
		`^((it|this|that|is|now) )*here( now)?$`, `^(it|this|the \w+) (came|is) in( today| now| this morning)?$`)
	shopRepaired = shopWords(`repaired`, `repared`, `repaird`, `fixed`, `fixd`,
		`(repair|repairs|fix) (is |are )?(done|complete|completed|finished)`, `replaced`, `rebuilt`,
		`(swapped|changed) (out )?(the|a|it is|both|all)`, `(put|installed|fitted) (in )?(a |the )?new`,
		`new \w+( \w+)? (is )?(in|on|installed|fitted)$`)
	shopReturned = shopWords(`back (in|into|to) (service|svc)`, `returned to (service|svc|duty)`, `rts`, `good to go`,
		`back on (the |its |your )?(rig|truck|engine|apparatus|line)`,
		`back on (e|t|engine|truck|ladder|rescue|squad|quint|medic|company) ?-?\d+`,
		`^((it|this|that|now|is|are|all) )*in service( now| again)?$`,
		`^((it|this|is|was|now) )*returned( it)?( to .*)?$`, `cleared for (service|duty|use)`,
		`(back|returned) (to|at|with) (the |its |your )?(crew|station|company)`)
	shopNotAFault = shopWords(`not a (fault|defect|failure)( here| at all| imo| on (it|this)| with (it|this))?$`,
		`no (fault|defect|trouble|problem)s?( was| were)? found`,
		`no (fault|defect)( here| there| with (it|this|that)| in (it|this|that)| on (it|this|that))?$`,
		`(works|working|operates|operating|performs) as (designed|intended|built|it should)`,
		`(that|this|it|which) is (perfectly |completely |just )?normal`, `normal (operation|behaviou?r|wear)`, `^(perfectly )?normal$`,
		`nothing( is)? wrong( here| there| with (it|this|that))?$`, `nothing to (fix|repair)`)
	shopOut = shopWords(`out of (service|svc)`, `oos`, `o/s`, `(red )?tag (it|this|that|the \w+)( out)?`, `tag out`, `red tag(ged)?`,
		`tagged( it| out)?`,
		`do not use( it| this| that)?$`, `take (it|this|that) off (the |your )?(rig|truck|engine|line)`)
	shopParts = shopWords(`back ?ordered`, `back ?order`, `on order`,
		`(wait|waits|waiting|waited|hold|holding) (on|for) (the |a |an |some |new )*(part|parts|blade|blades|hose|pump|seal|seals|kit|plug|valve|gasket|coupling|order|shipment|delivery)`,
		`ordered (the|a|an|new|some|it|one|parts|two|them)`,
		`(part|parts|blade|seal|kit|hose|plug|valve)( \w+)? (ordered|order|due|coming|shipped|en route|on the way|expected|eta|promised|until|til|till)`,
		`(part|parts)( \w+)? (will|should|to) (be|arrive|come|ship)`, `needs? (some |a |new )*parts?`,
		`(part|parts|it|they) (is |are )(\d+|a|two|three|few|couple of) (days?|weeks?|months?) out`,
		`(part|parts) (will )?(arrive|arriving|come|ship|get)s?`)
	shopPartsLate = shopWords(`(part|parts)( \w+)* (in|here|arrived|come|came|shown|delivered)`)
	shopPartsIn   = shopWords(`(part|parts|order) (is |are |has |have )?(now )?(in|here|arrived|came|come|delivered|received)`,
		`got (the |my |our )?parts?`)
	shopOrdering  = shopWords(`(will|to|going to|gonna|need to|must|should|can|could) order`)
	shopSpareWord = shopWords(`spare`, `spares`, `loaner`, `reserve`)
	shopSparePart = shopWords(`spare (parts?|blades?|chains?|bars?|plugs?|batter(y|ies)|seals?|kits?|bulbs?|belts?)`)
	shopElse      = shopWords(`other`, `another`, `different`, `one of`, `as good as`, `enough`, `mostly`, `except`)
	shopExchanged = shopWords(`replaced`, `swapped`, `changed`, `new`)
	shopPlaced    = shopWords(`placed`, `put`, `dropped`, `left`, `delivered`, `set`, `gave`, `swapped`, `installed`, `loaned`,
		`replaced`, `issued`, `brought`)
	shopTaken = shopWords(`picked up`, `pulled`, `took`, `taken`, `take`, `bring`, `bringing`, `get`,
		`(came|brought|taken|put) .*back`, `back`, `to the shop`, `going`)
	shopRides = shopWords(`(is |now |went )+(on|at|with)`, `on (e|t|engine|truck|ladder|rescue|squad|quint|medic|company) ?-?\d+`,
		`has (the |a )?(spare|loaner|reserve)`, `(spare|loaner|reserve)( \S+)? on`)
)

// shopWords compiles alternatives that match whole words only.
func shopWords(alternatives ...string) *regexp.Regexp {
	for i, a := range alternatives {
		a = `(?:` + a + `)`
		alternatives[i] = a
	}
	return regexp.MustCompile(`(?:^|\s)(?:` + strings.Join(alternatives, "|") + `)(?:\s|$)`)
}

// clause adds what clause i of a sentence says.
func (w *ShopWords) clause(s shopSentence, i int, items []NamedItem) {
	c := s.clauses[i]
	if c.asks {
		return
	}
	named := shopNamed(c.text, items)
	w.claims(s, i, named)
	if shopSeen.MatchString(c.text) && !c.denied {
		w.Seen = true
	}
	switch wanted := shopWanted.MatchString(c.text); {
	case c.denied || c.supposed:
	case wanted:
		w.Wanted = true
	case shopAtShop.MatchString(c.text) && !c.planned && !shopWill.MatchString(c.text):
		w.AtShop = true
	}
	if shopOut.MatchString(c.text) && c.orders() {
		w.OutOfService = true
	}
	w.parts(c)
	w.spare(c, named)
}

// claims adds the three that would close a defect, and takes back what a later
// clause denies.
func (w *ShopWords) claims(s shopSentence, i int, named dept.ItemID) {
	c := s.clauses[i]
	spare := shopSpareWord.MatchString(c.text)
	plain := c.plain() && !s.asks && !s.unsettled(i) && !spare && !shopElse.MatchString(c.text)
	if shopRepaired.MatchString(c.text) {
		exchanged := shopExchanged.MatchString(c.text) && named != ""
		w.Repaired = plain && !exchanged || w.Repaired && !c.denied
	}
	if shopReturned.MatchString(c.text) && !shopOther.MatchString(c.text) {
		w.Returned = plain || w.Returned && !c.denied
	}
	if bare := shopNotAFault.ReplaceAllString(c.text, " "); bare != c.text {
		c.denied = shopDenies.MatchString(bare)
		w.NotAFault = c.plain() && !s.asks && !spare && !s.excepts(i)
	}
}

// shopOther is a clause whose subject is a rig, the parts or another thing than
// the item of the thread.
var shopOther = shopWords(`(engine|truck|ladder|rescue|squad|quint|medic|rig|e|t) ?-?\d* (is )?(now )?(back|in service|good|returned)`,
	`(part|parts|order|other one|other|crew|crews|company)( \S+)* (back|good|in service|returned)`)

// parts adds that the repair waits for parts. Parts that "are not in" are waited
// for; parts that are in are not.
func (w *ShopWords) parts(c shopClause) {
	switch {
	case c.denied:
		w.Parts = w.Parts || shopPartsLate.MatchString(c.text)
	case shopOrdering.MatchString(c.text), shopIf.MatchString(shopBefore(c.text)):
	case shopParts.MatchString(c.text):
		w.Parts = true
	case shopPartsIn.MatchString(c.text) && !c.planned:
		w.Parts = false
	}
}

// spare adds that a spare stands with the company now.
func (w *ShopWords) spare(c shopClause, named dept.ItemID) {
	if !c.plain() || shopTaken.MatchString(c.text) {
		return
	}
	word := shopSpareWord.MatchString(shopSparePart.ReplaceAllString(c.text, " "))
	if !word && (named == "" || shopReturned.MatchString(c.text) || strings.Contains(c.text, " back")) {
		return
	}
	if shopPlaced.MatchString(c.text) || shopRides.MatchString(c.text) {
		w.SparePlaced, w.Spare = true, named
	}
}
