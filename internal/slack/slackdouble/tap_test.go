package slackdouble

import (
	"fmt"
	"strings"
	"testing"
)

// form is a modal with an input of each kind that people fill in.
func form() string {
	in := func(id, optional, element string) string {
		return `{"type":"input","block_id":"` + id + `","optional":` + optional + `,"label":` + plainJSON(id) + `,"element":` + element + `}`
	}
	options := optionJSON("low", "low") + "," + optionJSON("ok", "ok") + "," + optionJSON("over", "over")
	return `{"type":"modal","callback_id":"checks","private_metadata":"E1","notify_on_close":true,"title":` + plainJSON("Engine 1") +
		`,"submit":` + plainJSON("Send") + `,"blocks":[` + strings.Join([]string{
		in("text", "false", `{"type":"plain_text_input","action_id":"v","initial_value":"3/4","max_length":10}`),
		in("number", "true", `{"type":"number_input","action_id":"v","is_decimal_allowed":false,"min_value":"0","max_value":"5000"}`),
		in("menu", "true", `{"type":"static_select","action_id":"v","options":[`+options+`],"initial_option":`+optionJSON("ok", "ok")+`}`),
		in("radio", "true", `{"type":"radio_buttons","action_id":"v","options":[`+options+`]}`),
		in("boxes", "true", `{"type":"checkboxes","action_id":"v","options":[`+options+`]}`),
		in("date", "true", `{"type":"datepicker","action_id":"v"}`),
		in("time", "true", `{"type":"timepicker","action_id":"v","initial_time":"07:00"}`),
		actions(buttonJSON("all", "All good", "all good")),
	}, ",") + `]}`
}

func (r *raw) form() string {
	r.t.Helper()
	o := r.call("views.open", "trigger_id", r.w.Trigger(r.ines), "view", form())
	if o["ok"] != true {
		r.t.Fatalf("open: %v", o)
	}
	return o["view"].(object)["id"].(string)
}

// TestFilled: what people fill in becomes the state that Slack sends, and what
// Slack's client would hold back does not reach the app.
func TestFilled(t *testing.T) {
	for name, c := range map[string]struct {
		values map[string]string
		block  string
		want   string // in the state; "" for not sent
	}{
		"initial_text":    {nil, "text", `map[type:plain_text_input value:3/4]`},
		"typed":           {map[string]string{"text": "full"}, "text", `map[type:plain_text_input value:full]`},
		"emptied":         {map[string]string{"text": ""}, "text", ""},
		"too_long":        {map[string]string{"text": "12345678901"}, "text", ""},
		"two_lines":       {map[string]string{"text": "a\nb"}, "text", ""},
		"number":          {map[string]string{"number": "4500"}, "number", `map[type:number_input value:4500]`},
		"no_number":       {map[string]string{"number": "full"}, "number", ""},
		"over":            {map[string]string{"number": "5001"}, "number", ""},
		"decimal":         {map[string]string{"number": "4.5"}, "number", ""},
		"left_out":        {nil, "number", `map[type:number_input value:<nil>]`},
		"initial_option":  {nil, "menu", `map[selected_option:map[text:map[text:ok type:plain_text] value:ok] type:static_select]`},
		"chosen":          {map[string]string{"menu": "low"}, "menu", `map[selected_option:map[text:map[text:low type:plain_text] value:low] type:static_select]`},
		"no_such_option":  {map[string]string{"menu": "half"}, "menu", ""},
		"nothing_chosen":  {nil, "radio", `map[selected_option:<nil> type:radio_buttons]`},
		"two_boxes":       {map[string]string{"boxes": "low,over"}, "boxes", `map[selected_options:[map[text:map[text:low type:plain_text] value:low] map[text:map[text:over type:plain_text] value:over]] type:checkboxes]`},
		"date":            {map[string]string{"date": "2026-03-08"}, "date", `map[selected_date:2026-03-08 type:datepicker]`},
		"odd_date":        {map[string]string{"date": "8 March"}, "date", ""},
		"initial_time":    {nil, "time", `map[selected_time:07:00 type:timepicker]`},
		"no_such_block":   {map[string]string{"fuel": "1"}, "text", ""},
		"not_for_filling": {nil, "date", `map[selected_date:<nil> type:datepicker]`},
	} {
		t.Run(name, func(t *testing.T) {
			r := newRaw(t, Options{})
			id := r.form()
			state, err := filled(r.w.view(id).content, c.values)
			if c.want == "" {
				if err == nil {
					t.Errorf("sent %v", state)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if got := fmt.Sprint(state[c.block].(object)["v"]); got != c.want {
				t.Errorf("sent %s, want %s", got, c.want)
			}
		})
	}
}

// TestSubmit: what becomes of a view by the app's answer.
func TestSubmit(t *testing.T) {
	next := `{"type":"modal","title":{"type":"plain_text","text":"Next"},"blocks":[]}`
	for name, c := range map[string]struct {
		answer   string
		views    string // titles of those left open
		problems int
	}{
		"nothing": {"", "", 0},
		"clear":   {`{"response_action":"clear"}`, "", 0},
		"errors":  {`{"response_action":"errors","errors":{"text":"how much?"}}`, "Engine 1", 1},
		"update":  {`{"response_action":"update","view":` + next + `}`, "Next", 0},
		"push":    {`{"response_action":"push","view":` + next + `}`, "Engine 1 Next", 0},
	} {
		t.Run(name, func(t *testing.T) {
			r := newRaw(t, Options{})
			var payload any
			if c.answer != "" {
				payload = rawJSON(c.answer)
			}
			r.answering(payload)
			problems, err := r.w.SubmitView(r.ines, r.form(), nil)
			if err != nil || len(problems) != c.problems {
				t.Errorf("problems %v, %v", problems, err)
			}
			var titles []string
			for _, v := range r.w.Views(r.ines) {
				titles = append(titles, v.Title)
			}
			if got := strings.Join(titles, " "); got != c.views {
				t.Errorf("open are %q, want %q", got, c.views)
			}
			clean(t, r.w)
		})
	}
}

type rawJSON string

func (j rawJSON) MarshalJSON() ([]byte, error) { return []byte(j), nil }

// TestInView: buttons inside a view, closing it, and what is not there.
func TestInView(t *testing.T) {
	r := newRaw(t, Options{})
	conn := r.socket()
	id := r.form()
	do := func(f func() error) object {
		done := make(chan error, 1)
		go func() { done <- f() }()
		e := r.frame(conn)
		r.ack(conn, e, nil)
		if err := <-done; err != nil {
			t.Error(err)
		}
		return e["payload"].(object)
	}
	tap := do(func() error { return r.w.ClickView(r.ines, id, "All good") })
	if v := r.w.Views(r.ines)[0]; v.Callback != "checks" || v.Content["submit"].(object)["text"] != "Send" || len(v.Blocks) != 8 {
		t.Errorf("shown %+v", v)
	}
	if tap["type"] != "block_actions" || tap["view"].(object)["private_metadata"] != "E1" {
		t.Errorf("tapped %v", tap)
	}
	gone := do(func() error { return r.w.CloseView(r.ines, id) })
	if gone["type"] != "view_closed" || len(r.w.Views(r.ines)) != 0 {
		t.Errorf("closed %v", gone)
	}
	for name, err := range map[string]error{
		"closed_view": r.w.CloseView(r.ines, id),
		"no_button":   r.w.Click(r.ines, r.channel, r.root, "All good"),
		"no_view":     r.w.ClickView(r.ines, "V1", "All good"),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	clean(t, r.w)
}

// TestResponses: answers at a response address are seen by the person alone, by
// all, or in place of the message.
func TestResponses(t *testing.T) {
	for name, c := range map[string]struct {
		answer string
		want   string // texts, with the person they are for
	}{
		"alone":   {`{"text":"seen"}`, "root|seen for ines"},
		"all":     {`{"text":"seen","response_type":"in_channel"}`, "root|seen"},
		"replace": {`{"text":"done","replace_original":true}`, "done"},
		"delete":  {`{"delete_original":true}`, ""},
	} {
		t.Run(name, func(t *testing.T) {
			r := newRaw(t, Options{})
			r.w.mu.Lock()
			ch := r.w.channel(r.channel)
			address := r.w.newResponseURL(ch, r.ines, ch.find(r.root))
			r.w.mu.Unlock()
			if status := r.respond(address, c.answer); status != 200 {
				t.Errorf("status %d", status)
			}
			var got []string
			for _, m := range r.w.All(r.channel) {
				if m.OnlyFor != "" {
					m.Text += " for ines"
				}
				got = append(got, m.Text)
			}
			if s := strings.Join(got, "|"); s != c.want {
				t.Errorf("shown %q, want %q", s, c.want)
			}
			clean(t, r.w)
		})
	}
}
