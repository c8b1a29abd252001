package slack

import (
	"context"
	"fmt"
	"testing"

	"crosslay/bot/chat"
)

// BenchmarkTake is what an event costs from Slack's JSON to the inbox's door.
func BenchmarkTake(b *testing.B) {
	be := &Backend{}
	be.cfg.fill()
	d := &door{b: be, ear: ear{user: "UBOT", called: func(u string) string { return u }, address: func(c string) string { return c }},
		receive: func(context.Context, chat.Batch) error { return nil }}
	for i := range b.N {
		payload := fmt.Appendf(nil, `{"type":"event_callback","event":{"type":"message","channel":"C1","user":"U1","text":"1 3/4, 2-8 ok :+1:","ts":"1764082800.%06d","thread_ts":"1764082800.000100","event_ts":"1764082800.%06d"}}`, i%1e6, i%1e6)
		if _, err := d.take(b.Context(), eventsAPI, payload); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkPages is what a prompt costs to be laid out.
func BenchmarkPages(b *testing.B) {
	m := prompt("prompt/E1/2026-11-25/C")
	for range b.N {
		if len(pages(m)) != 1 {
			b.Fatal("more than a page")
		}
	}
}
