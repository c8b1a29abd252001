package slack

import (
	"context"
	"testing"

	"crosslay/bot/chat"
)

// FuzzPayload holds that whatever comes in through the door, an event that comes
// of it has a name of its own, a place and a time.
func FuzzPayload(f *testing.F) {
	f.Add(eventsAPI, []byte(`{"type":"event_callback","event_id":"Ev1","event":{"type":"message","channel":"C1","user":"U1","text":"all good","ts":"1764082800.000100","event_ts":"1764082800.000100"}}`))
	f.Add(eventsAPI, []byte(`{"type":"event_callback","event":{"type":"message","subtype":"message_changed","channel":"C1","event_ts":"1764082900.000100","message":{"user":"U1","ts":"1764082800.000100","text":"x","edited":{"user":"U1","ts":"1764082900.000000"}}}}`))
	f.Add(eventsAPI, []byte(`{"event":{"type":"reaction_added","user":"U1","reaction":"+1","item":{"type":"message","channel":"C1","ts":"1764082800.000100"},"event_ts":"1764082801.000100"}}`))
	f.Add(interactive, []byte(`{"type":"block_actions","user":{"id":"U1"},"channel":{"id":"C1"},"container":{"channel_id":"C1","message_ts":"1764082800.000100"},"actions":[{"action_id":"say-0","value":"all good","action_ts":"1764082801.000100"}]}`))
	f.Add(interactive, []byte(`{"type":"view_submission","user":{"id":"U1"},"view":{"id":"V1","private_metadata":"{\"c\":\"C1\",\"m\":\"1764082800.000100\"}","state":{"values":{"n/5/min":{"in":{"value":"6"}}}}}}`))
	f.Add(slashCommands, []byte(`{"command":"/crosslay","text":"status","user_id":"U1","channel_id":"C1","trigger_id":"1.2.3"}`))
	b := &Backend{}
	b.cfg.fill()
	var got []chat.Event
	d := &door{b: b, ear: ear{user: "UBOT", bot: "BBOT", called: func(u string) string { return u }, address: func(c string) string { return c }},
		receive: func(_ context.Context, batch chat.Batch) error { got = batch.Events; return nil }}
	f.Fuzz(func(t *testing.T, sort string, payload []byte) {
		got = nil
		if _, err := d.take(t.Context(), sort, payload); err != nil {
			t.Fatal(err)
		}
		for _, ev := range got {
			if ev.ID == "" || ev.Backend != Name || ev.Kind == "" || ev.Place.Room == "" || ev.Said.IsZero() || ev.Arrived.IsZero() || ev.Author == "UBOT" {
				t.Errorf("%+v", ev)
			}
		}
	})
}
