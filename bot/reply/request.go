package reply

import (
	"regexp"
	"strings"
	"time"

	"crosslay/bot/dept"
)

// RequestKind is what an officer wants.
type RequestKind string

// The requests.
const (
	RequestStatus       RequestKind = "status"
	RequestOutOfService RequestKind = "out_of_service" // what is out of service
	RequestNotChecked   RequestKind = "not_checked"
	RequestOpenDefects  RequestKind = "open_defects"
	RequestFuel         RequestKind = "fuel"
	RequestHistory      RequestKind = "history"
	RequestWhy          RequestKind = "why"      // why something was sent, or nothing was
	RequestTakeOut      RequestKind = "take_out" // take an item out of service
	RequestPutBack      RequestKind = "put_back" // put an item back in service
	RequestHelp         RequestKind = "help"
	RequestSummary      RequestKind = "summary"
	RequestCover        RequestKind = "cover"       // who covers for a company
	RequestSpares       RequestKind = "spares"      // where the spares do most good
	RequestBoard        RequestKind = "board"       // a picture of the shift
	RequestPicture      RequestKind = "picture"     // a picture of an item's year
	RequestMonth        RequestKind = "month"       // a picture of the month
	RequestService      RequestKind = "service"     // what falls due at the shop
	RequestServiced     RequestKind = "serviced"    // an order: the item has had its service
	RequestReliability  RequestKind = "reliability" // how an item, or the worst of a kind, is doing
	RequestRuns         RequestKind = "runs"        // warm-up runs and hours
)

// Names are what companies, stations and items answer to, in lower case: "e3",
// "engine 3", "station 2", "pu-07".
type Names struct {
	Companies map[string]dept.CompanyID
	Stations  map[string]dept.StationID
	Items     map[string]dept.ItemID

	index requestNameIndex
}

// Ready are the names made ready for many requests: without it each request
// sorts them anew.
func (n Names) Ready() Names {
	n.index = requestIndex(n)
	return n
}

// Request is what an officer asked for or ordered. Check holds words beside the
// names that narrow it: a check, a kind of item ("saw"), or what a company is to
// do ("cut").
type Request struct {
	Kind    RequestKind
	Company dept.CompanyID
	Station dept.StationID
	Item    dept.ItemID
	Check   string
}

// requestForm is one way to put a request. In a pattern @c, @s, @i stand for the
// name of a company, a station, an item, and @ for any of them.
type requestForm struct {
	kind  RequestKind
	words *regexp.Regexp
}

// requestForms are tried in order; the whole message must fit one of them, so
// that "fuel half" is not taken for a question about fuel.
var requestForms = []requestForm{
	requestFormOf(RequestHelp,
		`help( me)?`,
		`what can you do`,
		`commands`,
		`how does this work`,
		`how do i use (this|you)`),
	requestFormOf(RequestSummary,
		`(morning )?(summary|report)`,
		`(morning|daily) (summary|report)`,
		`summarize`),
	requestFormOf(RequestBoard,
		`(shift |the )?board( picture| of today)?`,
		`(picture|photo|image) of (the )?(board|shift|department)`),
	requestFormOf(RequestMonth,
		`(this )?month( picture| report| board| so far)?`,
		`(picture|report|image) (of|for) (the |this )?month`),
	requestFormOf(RequestPicture,
		`(picture|photo|image|year|chart|graph|plot)( of| for)? @i`,
		`@i (picture|photo|image|year|chart|graph|plot)`),
	requestFormOf(RequestCover,
		`(who|which company|what company)( is| can| could| would| will| should)? (covers?|covering|fills? in|filling in|backs? up|backing up)( for| of)? (@c|@i)( @)?`,
		`who( is| can| could| would| will)? (covers?|covering|fills? in|backs? up)( for)? (us|me)`,
		`(cover|coverage)( for| of)? (@c|@i)`,
		`(who|which company) can (?P<check>[a-z]+( wood| metal)?) for @c`,
		`(nearest|closest|next) (company|cover|one)( to| for) @c`),
	requestFormOf(RequestSpares,
		`(where|which company)( should| do| does| would| could| can| will)?( we put| put)?( spares?| reserves?)( items?)?( go| be| do (the )?most good| help most| be placed| be put| go best)?`,
		`(where|how)( is| are| to)?( best)?( place| put| for)? (spares?|reserves?)( best)?( placed)?`,
		`best (place|spot|company)s? for (spares?|reserves?)`),
	requestFormOf(RequestServiced,
		`@i (was |is |has been |got |had )?(serviced|its service|annual service)( today| now| morning| (?P<day>yesterday))?`,
		`serviced @i( today| now| morning| (?P<day>yesterday))?`,
		`(did|done|finished|completed)( annual)? service (on|of|for) @i( today)?`,
		`service( is)? (done|complete|completed|finished) (on|for|of) @i`,
		`@i service( is)? (done|complete|completed|finished)`),
	requestFormOf(RequestService,
		`week ahead`,
		`(what|which|anything|who)( items?)?( is| are)? (due|coming up|overdue)( for (service|shop)| at shop| in shop)?( week| next week| soon| now)?`,
		`(service|services|servicing|maintenance)( due| list| ahead| schedule| plan)?`+requestWhere,
		`(overdue|due) (service|services|list|week)`,
		`(next|last) service( of| for| on)? @i`,
		`when (is|was) @i( due)?( for| at)?( serviced| service| shop)?( due)?`,
		`(is|are) @i due( for service)?`,
		`@i (next )?service`),
	requestFormOf(RequestReliability,
		`how (is|has|are) @i( been)? (doing|been|holding up|behaving|performing)( lately| so far| this year)?`,
		`how (reliable|good|bad) is @i`,
		`(reliability|mtbf|availability|track record)( of| for| on)? @i`,
		`@i (reliability|mtbf|availability|track record)`,
		`is @i (getting )?(worse|better|unreliable|lemon|reliable)( than (others|its fellows|rest))?`,
		`(which|what) (?P<worst>.*) (is|are) (worst|least reliable|most trouble|most unreliable)`,
		`worst( (?P<worst>.*))?`,
		`how are (?P<worst>[a-z]+( [a-z]+)?s) (doing|holding up)( lately)?`,
		`(reliability|mtbf|availability)( of| for| by)? (?P<worst>.*)`),
	requestFormOf(RequestRuns,
		`(warm up|warmup)( runs?)?( record| records| log)?( of| for| on)?( @)*`,
		`run (record|records|log)( of| for| on)?( @)*`,
		`(runs|hours|engine hours|warm ups|warmups|warm up record)( of| for| on)?( @)*`,
		`@i (runs|hours|engine hours|warm up|warmup|warm ups|warm up record|run record)`,
		`how many (hours|runs) (has|does|on)( @i)( have| got| run)?`),
	requestFormOf(RequestTakeOut,
		`(take|pull|put|mark|place|set|call) @i( @c)? (out of service|oos)( now)?`,
		`(take|pull|put|mark|place) out of service @i`,
		`(oos|tag|red tag|tag out) @i( out)?`),
	requestFormOf(RequestPutBack,
		`(put|place|take|return|bring|mark|set) @i( @c)? (back )?(in|into|to) service( now)?`,
		`(put|place|return|bring) back( in| into| to)? service @i`),
	requestFormOf(RequestOutOfService,
		`(what|which|anything|everything|who|show|list)?( items?| gear| equipment| tools?)?( is| are| we have)?( anything)? ?(out of service|oos|o s)( items?| gear| equipment| list| tools?)?`+requestWhere,
		`(what|which|anything|who)( items?| gear| tools?)? (is|are) down`+requestWhere,
		`is anything out of service`+requestWhere,
		`what do we have out of service`+requestWhere),
	requestFormOf(RequestNotChecked,
		`(who|which companies|what companies|which|anybody|what)( is| are| has| have)?( not| still)*( is| has| have| been)*( not)? `+
			`(checked( in| yet)?|done (their|the) checks?|answered|reported|missing|open|late|unchecked|not checked)( yet| today| this morning)?`+requestWhere,
		`(not checked|unchecked|missing checks?|unanswered|checks? missing|open checks)`+requestWhere,
		`who is missing( a| their)? checks?`),
	requestFormOf(RequestOpenDefects,
		`(open |all |list |what |any |current )*(defects?|faults?|problems)( are| is)?( open)?`+requestWhere,
		`(what|anything|what all)( is| are)? (broken|defective|busted|wrong|broke)`+requestWhere,
		`what is wrong with @`+requestWhere),
	requestFormOf(RequestFuel,
		`(how much )?(fuel|gas)( is| do we have| does @ have)?( left| level| levels| status| remaining| state)?`+requestWhere,
		`@ (fuel|gas)( left| level| levels| status)?`,
		`who is low on (fuel|gas)`,
		`how (is|are) (the )?(fuel|gas)`+requestWhere,
		`how much (fuel|gas)( is)? (in|on) @( @)?`),
	requestFormOf(RequestHistory,
		`(history|log|record|records)( of| for| on| with)? (?P<check>.*@.*)`,
		`@( @)* history`,
		`what (has )?(happened|happen|been going on|is the history|is the story) ?(with|to|of|on) (?P<check>.*@.*)`,
		`why (is|was) @i( @c)? (out of service|oos|down|out)`,
		`(history|log) @`),
	requestFormOf(RequestWhy,
		`(why|how come) (?P<check>.*)`),
	requestFormOf(RequestStatus,
		`(status|state|readiness)( report| board)?`+requestWhere,
		`@ (status|state)`,
		`(what|who|which companies) (is|are) (ready|up|in service|available|good)`+requestWhere,
		`how (is|are) (@( @)?|things|we|we doing|everything|everybody|it looking)( doing| looking)?`,
		`(is|are) @( @)? (ok|okay|ready|up|good|in service|available|out of service|oos|down|back|back in service)`,
		`(can|could) @c (?P<check>[a-z]+( and [a-z]+)?)`,
		`(who|which companies|what companies|which company) can (?P<can>[a-z]+)`,
		`what can @c do`),
}

// requestWhere is the place that a request may be narrowed to.
const requestWhere = `(( of| on| for| at| in| with)*( @)+| today| now| this shift| here)*`

var (
	requestPolite = regexp.MustCompile(`^((please|hey|hi|ok|yo|bot|crosslay|can you|could you|would you|will you|` +
		`show( me)?|give me|tell me|get me|list|let me see|pull up|need|i need|i want|want to know|(can|could|may) i (get|have|see)) )+`)
	requestLittle = regexp.MustCompile(` (please|thanks|thank you|thx|pls|right now|currently|at the moment|for me)\b`)
	requestThe    = regexp.MustCompile(`\b(the|a|an|our|my|that|this)( )`)
	requestTwice  = regexp.MustCompile(`(@[csi]) (of |on |at |in |from )?(@[csi])`)
	requestRig    = regexp.MustCompile(`\b(engine|truck|ladder|rescue|squad|quint|medic|station|battalion|e|t|r|l|st|sta|pu|s)( \d+)\b`)
	requestSends  = regexp.MustCompile(`\b(sen[dt]|sends|sending|reminders?|reminded|remind|nag(ged|s)?|messages?|messaged|prompt(ed|s)?|` +
		`asked|ask|told|tell|silent|silence|quiet|heard|hear|post(ed)?|ping(ed|s)?|notif\w*|nothing|muted?)\b`)
	requestStray = regexp.MustCompile(`\b(history|of|on|for|with|from|to|at|@[csi]?)\b|@[csi]?`)
)

// ReadRequest reads an officer's plain words, and whether they are a request at
// all. An order must name exactly one item and nothing that makes it less than
// an order: no "not", no "tomorrow", no "should we".
func ReadRequest(text string, _ time.Time, names Names) (Request, bool) {
	if len(text) > shopLimit {
		return Request{}, false
	}
	plain := requestPlain(text)
	if plain == "" && strings.Contains(text, "?") {
		return Request{Kind: RequestHelp}, true
	}
	words, r, known := requestNames(plain, names)
	if !known {
		return Request{}, false
	}
	for _, form := range requestForms {
		if m := form.words.FindStringSubmatch(words); m != nil {
			return form.fill(r, m)
		}
	}
	return Request{}, false
}

// fill completes the request from the words that fitted the form.
func (f requestForm) fill(r Request, m []string) (Request, bool) {
	r.Kind = f.kind
	rest := ""
	for i, name := range f.words.SubexpNames() {
		if name != "" && m[i] != "" {
			rest = m[i]
		}
	}
	switch f.kind {
	case RequestWhy:
		return r, requestSends.MatchString(rest)
	case RequestTakeOut, RequestPutBack:
		return r, r.Item != ""
	case RequestServiced:
		r.Check = rest
		return r, r.Item != ""
	case RequestHistory, RequestStatus, RequestCover, RequestReliability:
		r.Check = strings.Join(strings.Fields(requestStray.ReplaceAllString(rest, " ")), " ")
	}
	return r, true
}

func requestFormOf(kind RequestKind, alternatives ...string) requestForm {
	words := strings.Join(alternatives, "|")
	words = strings.NewReplacer("@c", "@c", "@i", "@i", "@s", "@s", "@", "@[csi]").Replace(words)
	return requestForm{kind, regexp.MustCompile(`^(?:` + words + `)$`)}
}

// requestPlain is the message without courtesies and marks, cut where letters
// and digits meet.
func requestPlain(text string) string {
	text = strings.Join(shopTokens(shopPlain(text)), " ")
	text = requestPolite.ReplaceAllString(text+" ", "")
	text = requestLittle.ReplaceAllString(" "+text, "")
	return strings.Join(strings.Fields(requestThe.ReplaceAllString(text, "")), " ")
}

// requestNames puts marks in the place of names, the longest at each word, and
// reports whether they are clear: no two companies, stations or items, and no
// rig, station or item by a number that nobody knows.
func requestNames(text string, names Names) (string, Request, bool) {
	var r Request
	var out []string
	known := true
	index := names.index
	if index == nil {
		index = requestIndex(names)
	}
	for words := strings.Fields(text); len(words) > 0; {
		n, length := index.longest(words)
		if length == 0 {
			out, words = append(out, words[0]), words[1:]
			continue
		}
		known = n.into(&r) && known
		out, words = append(out, n.mark), words[length:]
	}
	joined := strings.Join(out, " ")
	known = known && !requestRig.MatchString(joined)
	return requestTwice.ReplaceAllString(joined, "$1 $3"), r, known
}

// requestNamed is what a name stands for: one of the three.
type requestNamed struct {
	mark    string
	company dept.CompanyID
	station dept.StationID
	item    dept.ItemID
}

// into adds the name to the request; false where the request has another.
func (n requestNamed) into(r *Request) bool {
	known := true
	switch n.mark {
	case "@c":
		known, r.Company = r.Company == "" || r.Company == n.company, n.company
	case "@s":
		known, r.Station = r.Station == "" || r.Station == n.station, n.station
	case "@i":
		known, r.Item = r.Item == "" || r.Item == n.item, n.item
	}
	return known
}

// requestNameIndex finds names by their tokens.
type requestNameIndex map[string]requestNamed

func requestIndex(names Names) requestNameIndex {
	index := requestNameIndex{}
	for name, id := range names.Items {
		index.add(name, requestNamed{mark: "@i", item: id})
	}
	for name, id := range names.Stations {
		index.add(name, requestNamed{mark: "@s", station: id})
	}
	for name, id := range names.Companies {
		index.add(name, requestNamed{mark: "@c", company: id})
	}
	return index
}

func (x requestNameIndex) add(name string, n requestNamed) {
	if words := requestThe.ReplaceAllString(strings.Join(shopTokens(name), " "), ""); words != "" {
		x[words] = n
	}
}

// longest is the longest name with which the words begin, and its length in
// words, 0 for none.
func (x requestNameIndex) longest(words []string) (requestNamed, int) {
	for length := min(len(words), 6); length > 0; length-- {
		if n, ok := x[strings.Join(words[:length], " ")]; ok {
			return n, length
		}
	}
	return requestNamed{}, 0
}
