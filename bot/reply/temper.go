package reply

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// temper is a way of putting it that takes the ground from a pass standing in the same
// words, whatever else they say.
type temper struct {
	cue  string // words, one of which the message has; looking for them is cheap
	like *regexp.Regexp
	why  Why
	of   func(Result) bool // the passes that it bears on
}

// noAnswer marks talk that answers nothing: "you good", "ok on a run".
const noAnswer Why = ""

// drop leaves out the results that match.
func (out *Reading) drop(match func(Result) bool) {
	gone := map[check.Ref]bool{}
	out.Results = slices.DeleteFunc(out.Results, func(r Result) bool {
		gone[r.Ref] = gone[r.Ref] || match(r)
		return match(r)
	})
	out.Ask = slices.DeleteFunc(out.Ask, func(ref check.Ref) bool { return gone[ref] })
	if len(out.Results) > 0 {
		return
	}
	out.Intent, out.Ask = Chatter, nil
	if out.Busy {
		out.Intent = Busy
	}
}

func wholePass(r Result) bool  { return isPass(r) && r.Blanket }
func plainPass(r Result) bool  { return isPass(r) && r.Value.Number == nil }
func figurePass(r Result) bool { return isPass(r) && r.Value.Number != nil }
func namedPass(r Result) bool  { return plainPass(r) && !r.Blanket }

var saysLeak, saysTank = re(`leak|drip|seep`), re(`fuel|gas|full|tank|\d/\d|mix`)

func leakPass(r Result) bool  { return plainPass(r) && saysLeak.MatchString(lower(r.Words)) }
func fluidPass(r Result) bool { return plainPass(r) && strings.Contains(lower(r.Words), "fluid") }
func tankPass(r Result) bool  { return isPass(r) && saysTank.MatchString(lower(r.Words)) }
func fullPass(r Result) bool  { return isPass(r) && r.Value.Number != nil && *r.Value.Number == 1 }

// loosePass leaves those out that tell how the tool stood.
func loosePass(r Result) bool { return namedPass(r) && r.Position == Unknown }

// tempers are looked for in the stretch of the message, up to a comma, that a pass was
// read from.
var tempers = []temper{
	// it does what it should, but not by itself, not all the way, not every time
	{"hand manually pushed warm cold hot push help pull hold jiggle wiggle", re(`\b(good|ok|tight|returns?|closes?|works?|rewinds?|locks?|opens?|comes back|goes back)\b.*\b(by hand|manually|when (pushed|warm|cold|hot)|(if|when) (you|u|i|we) (push|help|pull|hold|jiggle|wiggle)\w*)\b`), Hedged, namedPass},
	{"halfway half part partway partial partially almost nearly close most times sometimes 50", re(`\b(half ?way|part(ial)?(ly)? ?(way)|almost|nearly|close to (neutral|closed|shut)|most times|most of the time|some ?times|50 ?/ ?50)\b`), Hedged, loosePass},
	{"idle tries pulls one 1 only", re(`\b(at idle|after \d+ (tries|pulls)|on (one|1)( of \w+)?$|only$)`), Hedged, namedPass},
	{"ish half % percent", re(`\w-ish\b|\bish$|\b\d\d? ?(%|percent) good\b|\b(only|just) half (good|ok|clear|clean)\b`), Hedged, plainPass},
	{"will", re(`\bwill (return|close|hold|work|open|lock)\b`), Hedged, plainPass},
	// good of another time
	{"before on yesterdays yesterday", re(`\b(good|ok|fine|full|clear|sharp|\d)\b.*\b(before (the |i |we |it |that )?(run|ran|call|fire|cycled|started|used)|on the \d+(st|nd|rd|th))\b|\byesterday'?s check\b`), NotChecked, isPass},
	// a bound that the figure does not reach
	{"under shy quite nearly almost about max tops most best", re(`\b(under|shy of|not quite|nearly|almost|just about) (a )?full\b|\b\d ?/ ?\d ?(max|tops|at most|at best)\b`), Hedged, isPass},
	// said by somebody else
	{"says said sez claims", re(`\b(says|sez|claims) (all|everything|it)\b|\b(ok|okay|good|fine)\b.* (says|sez|claims) [a-z]{2,}\W*$`), Hedged, plainPass},
	// good with an exception that names no check
	{"but save except", re(`\b(yes|good|ok|work|works|there|on|tight|charged|clean) (but|save|except)( for)?( the| a)? [a-z]+( [a-z]+)?\W*$|\ball (\w+ )?but\b`), Conflict, namedPass},
	// it ran, but with trouble, or the figure is no length
	{"coughing coughed coughs quit pulls tries choke once could only pull on of first call", re(`\b(cough\w*|(till|until) it quit|took \d\d (pulls|tries)|choke on|once it (started|caught)|could only|only get|(start\w*|ran) on the \d+(st|nd|rd|th)|on pull \d+|\d+ of (the )?\d+|start at first|calls? for)\b`), Hedged, figurePass},
	{"still", re(`\bstill (comes|leaks|drips|moves|slips|seeps|weeps|drags|sticks|turns)\b`), Conflict, plainPass},
	{"after", re(`\bafter (a|an?other|two|three|\d+) (second|sec|minute|bit|while)`), Hedged, plainPass},
	{"not", re(`\bnot (too|that|very|real|so) (bad|dirty|worn|loose|dull)\b`), Hedged, plainPass},
	{"unless", re(`\bunless\b`), Hedged, isPass},
	{"on ones", re(`\b\d+ on (one|the other)\b`), Conflict, figurePass},
	{"no", re(`\b(good|ok|fine|clear),? no,? (it|its|it's|theyre|they're|wait|actually)\b`), Conflict, func(r Result) bool { return isPass(r) && !r.Blanket }},
	{"just", re(`\b(no|not|isn'?t|aren'?t|wasn'?t|never)\b.*\bjust (a |an |some |bit )?(\w+ )?\w+(ed|ing|n|p)\W*$`), Leftover, plainPass},
}

// blanketTempers are looked for in the whole message.
var blanketTempers = []temper{
	{"you u ya yall yall guys im crew crews everybody everyone comms radios", re(`^\W*(are )?(you|u|ya|y'?all|you guys|im|i'm|the crew|crew|crew's|(the )?guys|everybody|everyone|comms?|radios?)( is| are|'s)?( all)? (good|ok|okay|fine|alright|set|great)\b`), noAnswer, wholePass},
	{"one pass ill way s present accounted", re(`^\W*good one\b|^\W*pass\W*$|\bi'?ll do it\b|\bno way\b|\s/s\W*$|^\W*all (are )?(present|accounted for)\b`), noAnswer, wholePass},
	{"ticket order request shop maintenance same reported other", re(`\b(put in|wrote|opened|entered) a? ?(ticket|work order|request)|\bwork order\b|\b(shop|maintenance) (knows|is coming|coming|was told|has been told)\b|\bsame (issues|problems|faults|stuff)\b|\bwhat we reported\b`), Leftover, plainPass},
	{"wheres dropped ran was got", re(`\bwhere'?s\b|\bgot dropped\b|\bdropped (it|the)\b|\bran over\b|\bwas in (a|the) (fire|wreck)\b|\bgot (wet|hot|hit|run over)\b`), Leftover, wholePass},
	{"floor ground deck puddle spot under", re(`\b(on the (floor|ground|deck)|(spots?|puddle)\b.*\bunder)\b`), Leftover, leakPass},
	{"half quarter 2 4 low empty", re(`\bfull\b[^.;]*\b(half|1/2|1/4|quarter|low|empty)\b[^.;]*\b(now|after)\b|\bfull\b[^.;]*\b(now|after|then)\b[^.;]*\b(half|1/2|1/4|quarter|low|empty)\b`), Conflict, fullPass},
	{"then dips dip dipped drops drop dropped down sags", re(`\b\d+ (then|dips?( to)?|dipped to|drops?( to)?|dropped to|down to|sags to) \d+\b`), Conflict, figurePass},
	{"gas fuel mix petrol", re(`\b(gas|fuel|mix|petrol)('s| is| smells| looks) (old|stale|off|bad|sour|dirty)\b|\b(stale|straight|old) (gas|fuel|mix)\b`), Leftover, tankPass},
	{"ones one", re(`(,|but|and) ?one'?s (only |at )?\d+\b`), Conflict, figurePass},
	{"start", re(`\b(would ?n'?o?t|did ?n'?o?t) start (at first|right away)\b`), Hedged, figurePass},
	{"board aboard onboard", re(`\bno \w+ (on ?board|aboard)\b`), NotChecked, namedPass},
	{"half % percent", re(`^\W*half (good|ok|okay|fine)\W*$|^\W*\d\d? ?(%|percent) (good|ok|there)\b`), Hedged, isPass},
	{"compartment bay drawer bin shelf side", re(`\b(compartment|bay|drawer|bin|shelf) \d+ (is |are |all )?(good|ok|okay|fine)\b`), Leftover, isPass},
	{"pass passed passing", re(`^\W*(pass|passed|passing) (on|along)\b`), Leftover, isPass},
	{"it", re(`^\W*it works\W*$`), Leftover, wholePass},
	{"sticks stick stuck", re(`\b(sticks?|stuck) but\b`), Conflict, func(r Result) bool { return plainPass(r) && strings.Contains(lower(r.Words), "st") }},
	{"motor atf brake transmission wrong diesel", re(`\b(topped|filled|put|added|used|poured)\b.*\b(motor oil|atf|brake fluid|transmission fluid|wrong (oil|fluid|gas|fuel)|diesel)\b`), Conflict, fluidPass},
	{"of", re(`\b(yes|good|ok),? (only )?([1-9] of [2-9])\b`), Conflict, plainPass},
	// words that are no blanket though they sound like one
	{"ok okay k good fine problem", re(`^\W*(ok|okay|k|good|fine|alright|no problem)\W+(we'?re |were )?(on (a|the|our) |on it|got a |going )`), noAnswer, wholePass},
	{"yesterdays paste pasted", re(`^\W*yesterday'?s\b|\bcopy (and )?paste`), NotChecked, wholePass},
	{"im crew guys gang shift family daylight weather coffee traffic food dinner shape", re(`\bthe (crew|guys|gang|shift|family|kids?|boys) (is|are|'s)? ?(all )?(good|ok|fine)\b|\b(daylight|weather|coffee|traffic|food|dinner)('s| is| was)? (good|ok|fine|great)\b|^\W*i'?m (in|all|doing|feeling)\b`), Leftover, isPass},
	{"ends things which", re(`\bthat ends well\b|\ball good things\b|^\W*which is (good|fine|ok)\b`), Leftover, wholePass},
	{"well one some most", re(`\b(good|ok|fine|full),? (well|ok|er|um),? (one|some|most|not|a little|maybe)\b`), Conflict, isPass},
	{"wish", re(`\bwish\b`), Hedged, isPass},
	{"if", re(`\b(good|ok|full|fine|yes|neutral)\b,? (yes )?if (they|it|we|you|warm|cold|someone)\b`), Hedged, isPass},
	{"only", re(`\bonly (saw|did|got|checked|looked at|ran|tested) (half|some|one|part|a few)\b`), NotChecked, plainPass},
	{"check tighten swap change fix", re(`^\W*(check|tighten|swap|change|fix|make sure) [a-z]`), Leftover, isPass},
	{"oh chief pope", re(`^\W*oh sure\b|\bi'?m the (chief|pope|king|queen|mayor)\b`), Hedged, isPass},
	// a figure that is no reading, or not of now
	{"tag label sticker bottle cyl cylinder", re(`\b(on|by|per) the (tag|label|sticker)\b|\ba \d{4} (psi )?(bottle|cylinder|cyl)\b`), Hedged, isPass},
	{"took need needs off wide give used out gone minus between", re(`\btook \d+ to\b|\bneeds? \d|\boff by\b|\btoo (wide|narrow|far)\b|\bgive or take \d|\bused \d|\d/\d (used|out|gone|empty)\b|\d minus \d|\bbetween (them|the two)\b`), Hedged, figurePass},
	{"should did", re(`\b(less|shorter|lower) than (it|they) (should|did|was|were)\b`), Hedged, isPass},
	{"from in lunch time til till when", re(`\bfrom now\b|\bin \d+ min|\bby (lunch|noon|the time|tonight|tomorrow)\b|\bwill be\b|\b('?til|till|until) (i|it|we|you|they)\b|\bwhen (we|i) (got|found|had) it\b`), NotChecked, isPass},
	{"had", re(`^\W*had \d+\b`), NotChecked, figurePass},
	{"told", re(`\bi'?m told\b|\bwas told\b|\bthey tell me\b`), Hedged, isPass},
	{"worse more", re(`\bno (worse|more \w+)( than)?\b`), NotChecked, plainPass},
	{"point side count hardly spring past", re(`\bto a point\b|\bon the side (i|we|that)\b|\bif you count\b|\bhardly any\b|\band past (it|that)\b|\bother than the old\b`), Hedged, isPass},
	{"full", re(`\bfull\W+of (leaves|dirt|it|crap|holes|trash|bugs|rust)\b`), Leftover, isPass},
	{"garden rig dash dome phone trailer", re(`\bgarden hose\b|\b(rig|dash|dome|head|tail|porch|station) lights?\b|\bcell ?phone\b|\btrailer\b`), Leftover, isPass},
	{"test drop", re(`\bno \w+ (test|check)s? (was )?(done|made)\b`), NotChecked, isPass},
	{"f r", re(`\b\d+ f,? \d+ r\b`), Leftover, isPass},
	{"sounds", re(`\bsounds (off|funny|rough|different)\b`), Leftover, isPass},
}

func re(s string) *regexp.Regexp { return regexp.MustCompile(s) }

// cues is the set of tempers, by place in their table, that have a word in a text.
type cues uint64

func (c cues) has(i int) bool { return c&(1<<i) != 0 }

// cueIndex finds the tempers of a table by their words.
type cueIndex map[string]cues

func indexCues(table []temper) cueIndex {
	ix := cueIndex{}
	for i, t := range table {
		for _, w := range strings.Fields(t.cue) {
			ix[w] |= 1 << i
		}
	}
	return ix
}

var nearCues, wholeCues = indexCues(tempers), indexCues(blanketTempers)

var cueMarks = strings.NewReplacer("'", "", "%", " % ")

// cuesIn looks every word of the text up in both tables; apostrophes are left out.
func cuesIn(text string) (near, whole cues) {
	for w := range strings.FieldsFuncSeq(cueMarks.Replace(text), func(r rune) bool { return r != '%' && !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		near |= nearCues[w]
		whole |= wholeCues[w]
	}
	return near, whole
}

// tempered puts the passes in doubt that the words around them take the ground from.
func tempered(ctx Context, text string, out Reading) Reading {
	near, whole := cuesIn(text)
	for i, t := range blanketTempers {
		switch {
		case !whole.has(i) || !t.like.MatchString(text):
		case t.why == noAnswer:
			out.drop(t.of)
		default:
			out.doubt(t.why, t.of)
		}
	}
	if short(text) {
		out.doubt(Conflict, plainPass)
	}
	if leftOne.MatchString(text) && !slices.ContainsFunc(out.Results, func(r Result) bool { return !isPass(r) }) {
		out.doubt(Conflict, plainPass)
	}
	if miscounted(ctx.Items, text) {
		out.doubt(Conflict, wholePass)
	}
	if ofOther(ctx.Company, text) {
		out.doubt(Leftover, wholePass)
	}
	if g := theOtherOne.FindStringSubmatch(text); g != nil && lonely(ctx.Items, g[1]) {
		out.doubt(Leftover, isPass)
	}
	for _, it := range elsewhere(ctx.Items, text) {
		out.doubt(Leftover, func(r Result) bool { return wholePass(r) && r.Ref.Item == it })
	}
	if near != 0 {
		out.temperEach(near, text)
	}
	return out
}

func (out *Reading) temperEach(near cues, text string) {
	for _, r := range out.Results {
		if !isPass(r) || r.Fixed {
			continue
		}
		said := around(text, r.Words)
		for i, t := range tempers {
			if near.has(i) && t.of(r) && t.like.MatchString(said) {
				out.doubt(t.why, func(x Result) bool { return x.Ref == r.Ref })
				break
			}
		}
	}
}

// around is the stretch of the text, between two marks, in which the words stand; of a
// text without marks a few words on either side.
func around(text, said string) string {
	said = lower(said)
	at := strings.Index(text, said)
	if said == "" || at < 0 {
		return said
	}
	from, to := max(0, at-nearBy), min(len(text), at+len(said)+nearBy)
	if k := strings.LastIndexAny(text[from:at], ",;.!?\n"); k >= 0 {
		from += k + 1
	}
	if k := strings.IndexAny(text[at+len(said):to], ",;!?\n"); k >= 0 {
		to = at + len(said) + k
	}
	return strings.TrimSpace(text[from:to])
}

// nearBy is how far around the words a way of putting it is looked for, in bytes.
const nearBy = 28

var countOf = re(`\b(\d+) ?(?:(of|/|out of)) ?(?:the )?(\d+) (?:are |\w+ )?(?:good|ok|pass|passed|work|working|capped|there|fine)\b|\bpassed (\d+) (of) (\d+)\b`)

// short reports whether fewer are said to be good than there are: "18 of 19 good".
func short(text string) bool {
	if !strings.ContainsAny(text, "123456789") {
		return false
	}
	g := countOf.FindStringSubmatch(text)
	if g == nil {
		return false
	}
	n, err := strconv.Atoi(g[1] + g[4])
	m, err2 := strconv.Atoi(g[3] + g[6])
	gauge := g[2] == "/" && (m <= 5 || m == 8 || m == 16) // "3/4 good" is of a tank
	return err == nil && err2 == nil && n < m && m <= 99 && !gauge
}

// leftOne leaves something out of a blanket; where all passes none the less, nobody could
// tell what.
var leftOne = re(`\bexcept (for )?(whatever|what)\b|\b(all|everything|\d+ ?- ?\d+)\b.*\b(good|ok|fine)\b.*\b(minus|strike|less|but (the )?|not )(\d+|one|two|three)\b`)

var allOf = re(`^\W*all (\d\d?) (?:are |checks |of them )?(?:good|ok|okay|fine|pass|passed)\b`)

// miscounted reports whether all of a number are good that is neither that of the checks
// nor that of the items: one was left out, or counted wrongly.
func miscounted(items []Item, text string) bool {
	g := allOf.FindStringSubmatch(text)
	if g == nil {
		return false
	}
	n, err := strconv.Atoi(g[1])
	checks := 0
	for i := range items {
		checks += len(items[i].Checks)
	}
	return err == nil && n > 6 && n != checks && n != len(items)
}

var companyWord = re(`\b(engine|truck|ladder|rescue|squad|tower|medic|e|t)[ -]?(\d{1,3})\b`)

// ofOther reports whether the text speaks of a company by number that is not the one
// asked.
func ofOther(own []string, text string) bool {
	if len(own) == 0 || !strings.ContainsAny(text, "123456789") {
		return false
	}
	ours := lower(strings.Join(own, " "))
	for _, g := range companyWord.FindAllStringSubmatch(text, -1) {
		if !strings.Contains(ours, g[2]) {
			return true
		}
	}
	return false
}

// elsewhere are the items that do not ride on the vehicle that alone was gone through:
// "went through the ambulance and all is well".
func elsewhere(items []Item, text string) []dept.ItemID {
	var on string
	for i := range items {
		if p := strings.ToLower(items[i].Place); vehicles[p] && strings.Contains(text, "the "+p) {
			on = p
		}
	}
	if on == "" {
		return nil
	}
	var out []dept.ItemID
	for i := range items {
		if !strings.EqualFold(items[i].Place, on) {
			out = append(out, items[i].ID)
		}
	}
	return out
}

var vehicles = map[string]bool{"ambulance": true, "brush": true, "boat": true, "trailer": true, "utility": true, "chief's car": true}

var theOtherOne = re(`\bthe other (\w+) (?:is |was |looks )?(?:good|ok|okay|fine|full|all good)\b`)

// lonely reports whether the word is the name of an item that has no fellow here: its
// "other one" is on another company.
func lonely(items []Item, name string) bool {
	n := 0
	for i := range items {
		if slices.ContainsFunc(items[i].Names, func(s string) bool { return strings.EqualFold(s, name) }) {
			n++
		}
	}
	return n == 1
}
