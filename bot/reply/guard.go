package reply

import (
	"regexp"
	"slices"
	"strings"

	"crosslay/bot/check"
)

// The last stage looks at a reading as a whole. It knows ways in which words that
// pass are taken back by how they are put; it can turn a pass into a question and
// never the other way round.

var (
	// "all good once the saw is fixed", "good if ravi agrees"
	onCondition = regexp.MustCompile(`\b(good|ok|okay|fine|set|clear)\s+(if|once|unless|as soon as|provided|assuming)\b`)
	// "ok to use but not checked"
	notChecked = regexp.MustCompile(`\bbut\s+(it\s+)?(was\s+)?(not|never|wasn'?t|isn'?t)\s+(been\s+)?checked\s*[.!]*$`)
	// "ok on the cord": good is said of something that is no item and no check
	goodOnWhat = regexp.MustCompile(`^\s*(good|ok|okay|fine)\s+(on|with)\s+the\s+\w+`)
	// "I haven't added any", "didn't top it off"
	notDone = regexp.MustCompile(`\b(haven'?t|have not|hasn'?t|didn'?t|did not|not)\s+(yet\s+)?(add|added|top|topped|fill|filled|fix|fixed|refilled|touched)\b`)
	// "yesterday we topped off the fuel", and nothing of today
	onlyPast = regexp.MustCompile(`^\s*(yesterday|last (night|shift|week|tour))\b[^.,;!?]*[.!]*$`)
	today    = regexp.MustCompile(`\b(today|now|this morning|currently|it's|it is)\b`)
	// "one light is dim. The other one is bright"
	theOther = regexp.MustCompile(`\bthe other\b`)
)

// guard takes passes back that the way of putting it does not bear.
func guard(ctx Context, text string, out Reading) Reading {
	if len(text) > shopLimit || !slices.ContainsFunc(out.Results, isPass) {
		return out
	}
	switch {
	case onCondition.MatchString(text):
		out.doubt(Hedged, isPass)
	case notChecked.MatchString(text):
		out.doubt(NotChecked, isPass)
	case onlyPast.MatchString(text) && !today.MatchString(text):
		out.Results = slices.DeleteFunc(out.Results, isPass)
	case goodOnWhat.MatchString(text):
		out.doubt(Leftover, func(r Result) bool { return isPass(r) && r.Blanket })
	}
	if notDone.MatchString(text) {
		out.doubt(Conflict, func(r Result) bool { return isPass(r) && r.Fixed })
	}
	out = tempered(ctx, text, out)
	if at := theOther.FindStringIndex(text); at != nil {
		out.keepFaults(readPlain(ctx, text[:at[0]]))
	}
	return out
}

func isPass(r Result) bool { return r.State == check.OK }

// doubt turns the results that match into questions.
func (out *Reading) doubt(why Why, match func(Result) bool) {
	for i := range out.Results {
		r := &out.Results[i]
		if !match(*r) {
			continue
		}
		r.State, r.Value, r.Fixed = check.Unsure, check.Value{}, false
		r.Doubt = Doubt{Why: why, Refs: []check.Ref{r.Ref}}
		if !slices.Contains(out.Ask, r.Ref) {
			out.Ask = append(out.Ask, r.Ref)
		}
	}
}

// keepFaults holds the faults and doubts of the words before "the other": the other one's
// being fine mends nothing.
func (out *Reading) keepFaults(before Reading) {
	for _, was := range before.Results {
		i := slices.IndexFunc(out.Results, func(r Result) bool { return r.Ref == was.Ref && r.State == check.OK })
		if was.State != check.OK && i >= 0 {
			out.Results[i] = was
		}
	}
}

// lower is the text as the guard's patterns are written.
func lower(text string) string { return strings.ToLower(strings.ReplaceAll(text, "’", "'")) }
