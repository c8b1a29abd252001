package main

import (
	"encoding/json"
	"maps"
	"os"
	"slices"
	"testing"
	"testing/synctest"

	"github.com/goccy/go-yaml"

	"crosslay/bot/chat"
	"crosslay/config"
	"crosslay/internal/outbox"
)

// samplesFile names the file, if any, that the samples are written to, for a check
// of their types by other means.
const samplesFile = "CROSSLAY_SLACK_SAMPLES"

// samples are what Slack is sent: messages of every kind, dialogs, and what the
// app's manifest asks for.
type samples struct {
	Messages []sample         `json:"messages"`
	Views    []map[string]any `json:"views"`
	Scopes   []string         `json:"scopes"`
	Events   []string         `json:"events"`
	Manifest map[string]any   `json:"manifest"`
}

type sample struct {
	Kind   chat.MessageKind `json:"kind"`
	Text   string           `json:"text"`
	Blocks []map[string]any `json:"blocks"`
}

// everyKind are the messages that the bot sends to a channel.
var everyKind = []chat.MessageKind{chat.Answer, chat.Ask, chat.Defect, chat.Echo, chat.Escalation, chat.Fleet, chat.Nag, chat.News, chat.Notice,
	chat.Nudge, chat.Outage, chat.Prompt, chat.Refusal, chat.Report, chat.Status, chat.Summary}

// TestSlack_samples plays stories in which a message of every kind is posted.
func TestSlack_samples(t *testing.T) {
	played(t, false)
	all := samples{}
	all.manifest(t)
	for _, name := range []string{"morning", "ruling_15_three_of_a_kind", "refusals_by_role", "engine_left_running", "ruling_5_photo_and_report_in_one",
		"question_is_no_result", "photo_by_another_joins_the_thread", "which_hose_has_the_nick"} {
		script := storyOf(t, name+".story")
		synctest.Test(t, func(t *testing.T) {
			w := newSlackTown(t, beginOf(t, script), everywhere)
			w.start()
			if err := w.play(script.Steps); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			all.Messages = append(all.Messages, w.samples()...)
			if name == "morning" {
				all.Views = w.dialogs()
			}
			w.end()
		})
	}
	kinds := map[chat.MessageKind]bool{}
	for _, m := range all.Messages {
		kinds[m.Kind] = true
	}
	if got := slices.Sorted(maps.Keys(kinds)); !slices.Equal(got, everyKind) {
		t.Errorf("posted are %v, want %v", got, everyKind)
	}
	if len(all.Views) != 2 {
		t.Errorf("%d dialogs", len(all.Views))
	}
	all.write(t)
}

// samples are the bot's messages as they were posted, with their kinds.
func (w *slackTown) samples() []sample {
	sent, err := w.store.Outgoing(w.t.Context(), outbox.Sent)
	if err != nil {
		w.t.Fatal(err)
	}
	kinds := map[any]chat.MessageKind{}
	for _, o := range sent {
		kinds[string(o.Message.Key)] = o.Message.Kind
	}
	var list []sample
	seen := map[chat.MessageKind]int{}
	for _, m := range w.Posted() {
		kind := kinds[m.Payload["key"]]
		if seen[kind]++; kind != "" && seen[kind] <= 3 {
			list = append(list, sample{kind, m.Text, m.Blocks})
		}
	}
	return list
}

// dialogs are the dialogs that the buttons of a prompt open.
func (w *slackTown) dialogs() []map[string]any {
	var list []map[string]any
	for _, button := range []string{"Fill in the form", "Report a fault"} {
		w.tap("ines", "E1", button)
		views := w.Views(w.users["ines"])
		if len(views) != 1 {
			w.t.Fatalf("%d dialogs are open", len(views))
		}
		list = append(list, views[0].Content)
		if err := w.CloseView(w.users["ines"], views[0].ID); err != nil {
			w.t.Error(err)
		}
	}
	return list
}

func (s *samples) manifest(t *testing.T) {
	t.Helper()
	var m struct {
		OAuth    struct{ Scopes struct{ Bot []string } } `yaml:"oauth_config"`
		Settings struct {
			Events struct {
				Bot []string `yaml:"bot_events"`
			} `yaml:"event_subscriptions"`
		}
	}
	if err := yaml.Unmarshal(config.SlackManifest, &m); err != nil {
		t.Fatal(err)
	}
	if err := yaml.Unmarshal(config.SlackManifest, &s.Manifest); err != nil {
		t.Fatal(err)
	}
	s.Scopes, s.Events = m.OAuth.Scopes.Bot, m.Settings.Events.Bot
}

func (s *samples) write(t *testing.T) {
	t.Helper()
	path := os.Getenv(samplesFile)
	if path == "" {
		return
	}
	data, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}
