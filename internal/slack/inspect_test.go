package slack

import (
	"slices"
	"strings"
	"testing"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/slack/slackdouble"
)

// TestInspect: each thing that is missing has a sentence that says what to do;
// nothing is said when nothing is.
func TestInspect(t *testing.T) {
	for name, c := range map[string]struct {
		opt   slackdouble.Options
		spoil func(w *bench)
		rooms []string
		want  []string
	}{
		"all_well":       {rooms: []string{"#station-1"}},
		"scopes_missing": {opt: slackdouble.Options{Scopes: strings.Fields("chat:write channels:read channels:history groups:read groups:history")}, rooms: []string{"#station-1"}, want: []string{"files:read"}},
		"archived":       {spoil: func(w *bench) { w.Archive(w.station) }, rooms: []string{"id"}, want: []string{"unarchive it"}},
		"not_invited":    {spoil: func(w *bench) { w.Remove(w.station, w.BotUser) }, rooms: []string{"#station-1"}, want: []string{"/invite @crosslay"}},
		"no_such_name":   {rooms: []string{"#station-9"}, want: []string{"no channel is called #station-9"}},
		"no_such_id":     {rooms: []string{"C0404404404"}, want: []string{"the channel is not there"}},
		"twice":          {rooms: []string{"#station-1", "id"}, want: []string{"has a room already"}},
		"socket_off":     {spoil: func(w *bench) { w.Fail("apps.connections.open", slackdouble.Refuse("missing_scope")) }, want: []string{"connections:write"}},
		"in_trouble":     {spoil: func(w *bench) { w.Fail("auth.test", slackdouble.Refuse("internal_error")) }, want: []string{"Slack is in trouble (internal_error)"}},
		"revoked":        {spoil: func(w *bench) { w.Revoke(w.BotToken) }, rooms: []string{"#station-1"}, want: []string{"install the app again"}},
	} {
		t.Run(name, func(t *testing.T) {
			onBench(t, c.opt, func(w *bench) {
				time.Sleep(2 * time.Minute) // the listener's connection is not counted with ours
				w.stop()
				if c.spoil != nil {
					c.spoil(w)
				}
				before := len(w.Posted())
				var rooms []chat.Place
				for _, r := range c.rooms {
					rooms = append(rooms, chat.Place{Backend: Name, Room: strings.Replace(r, "id", w.station, 1)})
				}
				got := Inspect(w.t.Context(), w.config(), rooms)
				if len(got) != len(c.want) {
					t.Fatalf("says %q, want %q", got, c.want)
				}
				for i, want := range c.want {
					if !strings.Contains(got[i], want) {
						t.Errorf("says %q, want %q", got[i], want)
					}
				}
				if len(w.Posted()) != before {
					t.Error("it says something in a channel")
				}
				w.Forget() // what is spoilt on purpose
			})
		})
	}
}

// TestInspect_unreached: where nothing answers, the token is not blamed.
func TestInspect_unreached(t *testing.T) {
	cfg := Config{Tokens: Tokens{Bot: "xoxb-1-s3cret", App: "xapp-1-s3cret"}, URL: "http://127.0.0.1:9/api/", Rooms: func() []string { return nil }}
	got := Inspect(t.Context(), cfg, []chat.Place{{Backend: Name, Room: "#station-1"}})
	if len(got) != 1 || !strings.Contains(got[0], "Slack could not be reached: dial tcp 127.0.0.1:9") || strings.Contains(got[0], "s3cret") {
		t.Errorf("says %q", got)
	}
}

func TestScopes_are_the_doubles(t *testing.T) {
	if a, b := slices.Sorted(slices.Values(Scopes)), slices.Sorted(slices.Values(slackdouble.ManifestScopes)); !slices.Equal(a, b) {
		t.Errorf("%v and %v", a, b)
	}
}
