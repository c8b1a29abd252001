package reply

import (
	"regexp"
	"strings"
)

// shopClause is a part of a sentence that says one thing, in plain lower-case
// words with contractions written out. The flags tell how it is said.
type shopClause struct {
	text     string
	joint    string // what joins it to the clause before: "", ",", "and", "or", "but"
	asks     bool
	denied   bool
	unsaid   bool // denied by a bare \"no\" after it
	planned  bool // not yet: will, tomorrow, by friday
	supposed bool // a condition, a hedge, or another's word
}

// plain reports whether the clause states what is so now.
func (c shopClause) plain() bool {
	return !c.asks && !c.denied && !c.planned && !c.supposed && !c.unsaid
}

// orders reports whether words that take something out of service count. A day
// named with them ("until friday") does not weaken them.
func (c shopClause) orders() bool {
	bare := strings.TrimSpace(shopProhibits.ReplaceAllString(c.text, " "))
	will := shopWill.MatchString(bare) || shopWas.MatchString(bare)
	return !shopDenies.MatchString(bare) && !will && !shopIf.MatchString(shopBefore(bare))
}

// shopBefore is the clause without what follows "until": a repair to come does
// not make an order conditional.
func shopBefore(text string) string {
	before, _, _ := strings.Cut(" "+text, " until ")
	return before
}

// shopSentence is the clauses up to a full stop or a question mark.
type shopSentence struct {
	clauses []shopClause
	asks    bool
}

var (
	shopDenies = shopWords(`not`, `no`, `never`, `none`, `nobody`, `nothing`, `without`, `neither`, `nor`, `unable`, `hardly`,
		`barely`, `un(fixed|repaired)`,
		`failed`, `instead of`, `rather than`, `negative`, `nope`, `refused`, `far from`, `anything but`, `yet to`)
	shopWill = shopWords(`will`, `would`, `gonna`, `going to`, `ill`, `shall`, `planning`, `plan`, `plans`)
	shopDay  = shopWords(`tomorrow`, `tonight`, `tmrw`, `tmw`, `soon`, `later`, `shortly`, `next`, `eventually`, `eta`, `by`, `almost`,
		`nearly`,
		`(mon|tues|wednes|thurs|fri|satur|sun)day`, `mon`, `tue`, `tues`, `wed`, `thu`, `thur`, `thurs`, `fri`, `sat`,
		`in (a |an |the |\d+ |two |three |few |couple |of )*(min|mins|minutes?|hours?|hrs?|days?|weeks?|months?|bit|while)`, `\d+/\d+`,
		`yet`,
		`half`, `part(ly|ially)`, `still`, `until`, `to be`, `being`, `be`, `need`, `needs`, `needed`, `want`, `wants`, `must`, `get`,
		`getting`, `gets`, `trying`, `waiting`, `needing`, `ready to`,
		`working on`, `needs?`, `this (afternoon|evening|week)`, `end of`, `before`, `temporarily`, `temp`)
	shopIf     = shopWords(`if`, `when`, `once`, `after`, `unless`, `until`, `whether`, `in case`, `as soon as`, `pending`, `provided`)
	shopHedged = shopWords(`maybe`, `probably`, `perhaps`, `possibly`, `likely`, `hopefully`, `hope`, `hoping`, `think`, `guess`,
		`should`, `might`, `may`, `could`, `can`, `seems`, `supposedly`,
		`supposed`, `looks like`, `appears`, `believe`, `assume`, `assuming`, `expect`, `expected`, `said`, `says`, `say`, `saying`,
		`told`, `tells`, `claims`, `claim`, `claimed`, `thought`, `heard`, `sure`, `doubt`, `pretend`, `wish`,
		`last (time|week|month|year|spring|summer|fall|winter)`, `ago`, `used to`, `like`, `anybody`, `anyone`, `somebody`, `someone`,
		`who(ever)?`)
	shopWas  = shopWords(`was`, `were`, `been`, `had`, `from`, `no longer`)
	shopAsks = regexp.MustCompile(`^(so |and |but |ok |hey )*(` +
		`(is|are|was|were|did|does|do|has|have|had|can|could|will|would|should) ` +
		`(it|the|this|that|you|i|we|they|there|anybody|anyone|somebody|someone|he|she|your|s-?\d+)|` +
		`any (word|news|update|luck|idea)|who|what|why|how|where|which|when (is|are|will|did|can|was)|let me know|wondering|asking)( |$)`)
	shopProhibits = regexp.MustCompile(`do not use( it| this| that)?$`)
	shopSubject   = regexp.MustCompile(`^(it|this|that|i|we|all|now|already|the|today)( |$)`)
	shopPresent   = shopWords(`today`, `now`, `already`, `this morning`, `just`, `(is|was|have|has) (repaired|fixed|replaced)`)
	shopOnlyNo    = regexp.MustCompile(`^(no|nope|not|not yet|negative|nah|never|no not yet|just kidding|jk)$`)
	shopBroken    = regexp.MustCompile(`(^| )((leaks?|leaking|failed|fails|broke|broken|cracked) again|same (problem|fault|issue))`)
	shopStill     = regexp.MustCompile(`(?:^| )still (\w+)`)
	shopStillGood = regexp.MustCompile(`^(good|works?|working|fine|ok|okay|tight|holding|running|runs|in)$`)
	shopExcept    = regexp.MustCompile(`(^| )(except|other than|apart from|but|it is the|just the|only the)( |$)`)
	shopTakenBack = regexp.MustCompile(`(?i)scratch that|disregard( that| the above)?|wrong (thread|one)|never ?mind`)
	shopJoint     = regexp.MustCompile(`\s*,\s*|\s+-+\s+|\s*[—–;:]\s+|\s+(?:and|then|or|nor|but|however|though|although|&|\+)\s+`)
	shopStop      = regexp.MustCompile(`[.!]+(?:\s|$)|\?+|\n+|\.\.+`)
)

// shopSettled drops what the writer took back.
func shopSettled(text string) string {
	if at := shopTakenBack.FindAllStringIndex(text, -1); at != nil {
		return text[at[len(at)-1][1]:]
	}
	return text
}

// shopSentences cuts a message into sentences of clauses and tells how each
// clause is said.
func shopSentences(text string) []shopSentence {
	var all []shopSentence
	text = shopPlain(text)
	for text != "" {
		end, next, asks := len(text), len(text), false
		if at := shopStop.FindStringIndex(text); at != nil {
			end, next = at[0], at[1]
			asks = strings.Contains(text[end:next], "?")
		}
		if s := shopCut(text[:end], asks); len(s.clauses) > 0 {
			all = append(all, s)
		}
		text = strings.TrimSpace(text[next:])
	}
	return shopDenials(all)
}

// shopCut makes one sentence. A question mark makes a question of the last
// clause at least.
func shopCut(text string, asks bool) shopSentence {
	s := shopSentence{asks: asks}
	joint, from := "", 0
	for _, at := range append(shopJoint.FindAllStringIndex(text, -1), []int{len(text), len(text)}) {
		if words := strings.Join(strings.Fields(strings.Trim(text[from:at[0]], " ,")), " "); words != "" {
			s.clauses = append(s.clauses, shopTold(words, joint))
		}
		joint, from = strings.TrimSpace(text[at[0]:at[1]]), at[1]
	}
	if n := len(s.clauses); n > 0 && asks {
		s.clauses[n-1].asks = true
	}
	for _, c := range s.clauses {
		s.asks = s.asks || c.asks
	}
	s.carry()
	return s
}

func shopTold(words, joint string) shopClause {
	return shopClause{
		text: words, joint: joint,
		asks:     shopAsks.MatchString(words),
		denied:   shopDenies.MatchString(words),
		planned:  shopWill.MatchString(words) || shopDay.MatchString(words),
		supposed: shopIf.MatchString(words) || shopHedged.MatchString(words),
	}
}

// carry lets how a clause is said hold for the clauses that lean on it: "will
// be fixed and back in service", "once it is fixed, back in service", "not
// repaired, tested or returned".
func (s *shopSentence) carry() {
	spoke := false
	for i := 1; i < len(s.clauses); i++ {
		before, c := s.clauses[i-1], &s.clauses[i]
		spoke = before.denied && (spoke || before.speaks())
		if c.joint == "but" || before.asks {
			continue
		}
		leans := !shopSubject.MatchString(c.text)
		c.supposed = c.supposed || before.supposed && (leans || shopIf.MatchString(before.text))
		c.planned = c.planned || leans && shopWill.MatchString(before.text)
		listed := c.joint == "and" || c.joint == "or" || c.joint == "nor" || s.listed(i)
		c.denied = c.denied || leans && listed && spoke
	}
	for i := len(s.clauses) - 2; i >= 0; i-- {
		c, after := &s.clauses[i], s.clauses[i+1]
		if after.joint == "and" && after.planned && after.speaks() && !shopPresent.MatchString(c.text) {
			c.planned = true
		}
	}
}

// listed reports whether clause i stands in a list that ends in "or".
func (s *shopSentence) listed(i int) bool {
	for _, c := range s.clauses[i:] {
		if c.joint == "or" || c.joint == "nor" {
			return true
		}
	}
	return false
}

// speaks reports whether a clause is about repair or return at all.
func (c shopClause) speaks() bool {
	bare := shopNotAFault.ReplaceAllString(c.text, " ")
	return shopRepaired.MatchString(bare) || shopReturned.MatchString(bare)
}

// unsettled reports whether words after clause i speak against it.
func (s *shopSentence) unsettled(i int) bool {
	for _, c := range s.clauses[i:] {
		still := shopStill.FindStringSubmatch(c.text)
		if shopBroken.MatchString(c.text) || still != nil && !shopStillGood.MatchString(still[1]) {
			return true
		}
	}
	return false
}

// excepts reports whether clause i or one after it names what is wrong after all.
func (s *shopSentence) excepts(i int) bool {
	for j, c := range s.clauses[i:] {
		if shopExcept.MatchString(c.text) || j > 0 && c.joint == "but" {
			return true
		}
	}
	return false
}

// shopDenials lets a bare "no" or "not yet" deny what stands before it, also in
// the sentence before.
func shopDenials(all []shopSentence) []shopSentence {
	var before *shopClause
	for i := range all {
		for j := range all[i].clauses {
			c := &all[i].clauses[j]
			if before != nil && shopOnlyNo.MatchString(c.text) {
				before.denied, before.unsaid = true, true
			}
			before = c
		}
		if i > 0 && all[i].unsettled(0) {
			shopUnsettle(all[:i])
		}
	}
	return all
}

// shopUnsettle marks what was said before "still leaking" as supposed.
func shopUnsettle(all []shopSentence) {
	for i := range all {
		for j := range all[i].clauses {
			all[i].clauses[j].supposed = true
		}
	}
}
