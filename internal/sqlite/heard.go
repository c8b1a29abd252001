package sqlite

import (
	"context"
	"encoding/json"
	"fmt"

	"crosslay/bot/chat"
)

// Heard is an event that was put into the inbox before, by its backend and id;
// false if there is none. Backends ask for what a later event takes back or
// changes.
func (s *Store) Heard(ctx context.Context, backend, id string) (ev chat.Event, found bool, err error) {
	err = s.w.look(ctx, func() error {
		var body []byte
		found, err = s.w.one(`SELECT body FROM inbox WHERE backend = ? AND id = ?`, []any{backend, id}, &body)
		if err != nil || !found {
			return err
		}
		return json.Unmarshal(body, &ev)
	})
	if err != nil {
		return chat.Event{}, false, fmt.Errorf("look up event %s/%s: %w", backend, id, err)
	}
	return ev, found, nil
}
