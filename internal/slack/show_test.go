package slack

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	api "github.com/slack-go/slack"
	"pgregory.net/rapid"

	"crosslay/bot/chat"
	"crosslay/internal/slack/slackdouble"
)

// anyMessage is a message of a department that may be long beyond reason.
func anyMessage(t *rapid.T) chat.Message {
	roles := []chat.Role{chat.Title, chat.Body, chat.List, chat.Hint, chat.Safety}
	line := rapid.OneOf(rapid.StringN(0, 60, 200), rapid.StringN(0, 4000, 16000), rapid.Just("1 fuel: cap open, look"))
	m := chat.Message{Key: "k"}
	for range rapid.IntRange(0, 80).Draw(t, "blocks") {
		m.Blocks = append(m.Blocks, chat.Text(rapid.SampledFrom(roles).Draw(t, "role"), rapid.SliceOfN(line, 0, 8).Draw(t, "lines")...))
	}
	for i := range rapid.IntRange(0, 40).Draw(t, "choices") {
		m.Choices = append(m.Choices, chat.Choice{Label: rapid.StringN(1, 100, 400).Draw(t, "label"), Say: fmt.Sprintf("say %d", i)})
	}
	if n := rapid.IntRange(0, 150).Draw(t, "fields"); n > 0 {
		m.Form = anyForm(t, n)
	}
	return m
}

func anyForm(t *rapid.T, n int) *chat.Form {
	f := &chat.Form{Label: "Fill in the form", Title: rapid.StringN(1, 40, 100).Draw(t, "title"), Rest: "Anything else"}
	for i := range n {
		f.Fields = append(f.Fields, chat.Field{N: i + 1, Label: rapid.StringN(1, 24, 60).Draw(t, "check"), Under: fmt.Sprintf("Power unit PU-%02d", i/6),
			Say: rapid.SampledFrom([][]string{nil, {"ok", "not ok"}, {"full", "7/8", "3/4", "1/2"}}).Draw(t, "say"), Unit: rapid.SampledFrom([]string{"", "min", "psi"}).Draw(t, "unit")})
	}
	return f
}

// TestPages_fit: however long a message is, each page keeps Slack's limits, and no
// word of it is lost.
func TestPages_fit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyMessage(t)
		var texts strings.Builder
		for i, p := range pages(m) {
			if n := len(p.all()); n > 50 || n == 0 {
				t.Fatalf("page %d has %d blocks", i, n)
			}
			if n := utf8.RuneCountInString(p.text); n > 4000 || strings.TrimSpace(p.text) == "" {
				t.Fatalf("the text behind page %d has %d characters", i, n)
			}
			if i > 0 && len(p.rows) > 0 {
				t.Fatalf("page %d has buttons", i)
			}
			data, err := json.Marshal(p.blocks)
			if err != nil {
				t.Fatal(err)
			}
			texts.WriteString(textOf(t, data))
		}
		got, want := strings.Join(strings.Fields(texts.String()), ""), strings.Join(strings.Fields(clean(m.Plain())), "")
		if strings.ReplaceAll(got, "⚠️", "") != strings.ReplaceAll(want, "⚠️", "") && want != "" {
			t.Fatalf("shown is %q, want %q", got, want)
		}
	})
}

// textOf are the texts of blocks, each within its limit.
func textOf(t *rapid.T, blocks []byte) string {
	type text struct{ Text string }
	var list []struct {
		Type     string
		Text     *text
		Elements []text
	}
	if err := json.Unmarshal(blocks, &list); err != nil {
		t.Fatal(err)
	}
	most := map[string]int{"header": 150, "section": 3000, "context": 2000}
	var out strings.Builder
	for _, b := range list {
		if b.Text != nil {
			b.Elements = append(b.Elements, *b.Text)
		}
		for _, e := range b.Elements {
			if n := utf8.RuneCountInString(e.Text); n > most[b.Type] || n == 0 {
				t.Fatalf("a %s has %d characters", b.Type, n)
			}
			out.WriteString(e.Text + "\n")
		}
	}
	return out.String()
}

// TestSheets_fit: a form of any length is split over buttons that carry it, and
// nothing is asked twice or not at all.
func TestSheets_fit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		form := anyForm(t, rapid.IntRange(1, 200).Draw(t, "n"))
		var asked []int
		for _, s := range sheets(form) {
			value := s.encode()
			if utf8.RuneCountInString(value) > 2000 || utf8.RuneCountInString(s.Label) > 75 {
				t.Fatalf("a button of %d characters carries %d", len(s.Label), len(value))
			}
			var back sheet
			if err := json.Unmarshal([]byte(value), &back); err != nil {
				t.Fatal(err)
			}
			view := back.dialog(opened{"C0123456789", "1764082800.000100", "1764082800.000100"})
			if n := len(view.Blocks.BlockSet); n > 100 || utf8.RuneCountInString(view.Title.Text) > 24 || len(view.PrivateMetadata) > 3000 {
				t.Fatalf("a dialog of %d blocks, titled %q", n, view.Title.Text)
			}
			for _, f := range back.Fields {
				asked = append(asked, f.N)
			}
		}
		if len(asked) != len(form.Fields) || !slices.IsSorted(asked) || asked[0] != 1 {
			t.Fatalf("asked are %v", asked)
		}
	})
}

// TestPosted_fits: what the properties make passes the double's own rules.
func TestPosted_fits(t *testing.T) {
	long := chat.Message{Key: "k/long", Blocks: []chat.Block{chat.Text(chat.Title, strings.Repeat("Engine ", 60))}, Form: &chat.Form{Label: "Fill in the form", Title: "Engine 1", Rest: "Else"}}
	for i := range 120 {
		long.Blocks = append(long.Blocks, chat.Text(chat.Hint, strings.Repeat("a hint & more <of> it ", 100)))
		long.Choices = append(long.Choices, chat.Choice{Label: strings.Repeat("long ", 30), Say: fmt.Sprint(i)})
		long.Form.Fields = append(long.Form.Fields, chat.Field{N: i + 1, Label: "hydraulic fluid", Under: fmt.Sprintf("Power unit %d", i/5), Say: []string{"ok", "low"}, Filled: "low"})
	}
	onBench(t, slackdouble.Options{}, func(w *bench) {
		ref := w.post(long, w.place())
		for i, s := range sheets(long.Form) {
			w.click(string(ref), fmt.Sprintf("form-%d", i))
			views := w.Views(w.ines)
			if len(views) != 1 || len(views[0].Blocks) == 0 {
				t.Fatalf("dialog %d (%s) does not open: %v", i, s.Label, w.troubles())
			}
			if err := w.CloseView(w.ines, views[0].ID); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// TestForm_from_an_older_prompt: a button that cannot be read opens nothing and
// hurts nothing.
func TestForm_from_an_older_prompt(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		m := chat.Message{Key: "k", Blocks: []chat.Block{chat.Text(chat.Body, "x")}}
		ref := w.post(m, w.place())
		odd := []api.Block{api.NewActionBlock("", button("form-0", "{half a form", "Fill in the form"))}
		if err := w.b.update(w.t.Context(), w.station, string(ref), page{text: "x", blocks: pages(m)[0].blocks, rows: odd}); err != nil {
			t.Fatal(err)
		}
		w.click(string(ref), "form-0")
		w.settle()
		if told := w.troubles(); len(told) != 1 || !strings.Contains(told[0].Error(), "form") {
			t.Errorf("told %v", told)
		}
		if n := len(w.in.heard()); n != 0 {
			t.Errorf("heard %d events", n)
		}
	})
}
