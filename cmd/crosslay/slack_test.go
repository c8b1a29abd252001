package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"

	"crosslay/config"
	"crosslay/internal/slack"
	"crosslay/internal/slack/slackdouble"
)

func TestSlack_guide(t *testing.T) {
	for name, c := range map[string]struct {
		env  map[string]string
		want string
	}{
		"at_the_start": {nil, "So far: the bot token is missing: set CROSSLAY_SLACK_BOT_TOKEN"},
		"halfway":      {map[string]string{"CROSSLAY_SLACK_BOT_TOKEN": "xoxb-1-s3cret"}, "So far: neither an app token"},
		"at_the_end": {map[string]string{"CROSSLAY_SLACK_BOT_TOKEN": "xoxb-1-s3cret", "CROSSLAY_SLACK_APP_TOKEN": "xapp-1-s3cret"},
			"So far: bot token: set, app token: set, signing secret: missing. Next: crosslay vet --online"},
	} {
		t.Run(name, func(t *testing.T) {
			var out bytes.Buffer
			cmd := slackCmd{secretsFlag: secretsFlag{Secrets: t.TempDir()}}
			if err := cmd.guide(&out, func(k string) string { return c.env[k] }); err != nil {
				t.Fatal(err)
			}
			if text := out.String(); !strings.Contains(text, c.want) || strings.Contains(text, "s3cret") {
				t.Errorf("says\n%s", text)
			}
			for line := range strings.SplitSeq(strings.Split(out.String(), "\nSo far")[0], "\n") {
				if len(line) > 84 && !strings.Contains(line, cmd.Secrets) {
					t.Errorf("a line of %d characters: %s", len(line), line)
				}
			}
		})
	}
}

// TestSlack_manifest: the manifest that is printed asks for the scopes that the
// backend wants, and for the events that it hears.
func TestSlack_manifest(t *testing.T) {
	var out bytes.Buffer
	if err := (&slackCmd{Manifest: true}).guide(&out, nil); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(out.Bytes(), config.SlackManifest) {
		t.Error("printed is something else")
	}
	var m struct {
		OAuth    struct{ Scopes struct{ Bot []string } } `yaml:"oauth_config"`
		Settings struct {
			Events struct {
				Bot []string `yaml:"bot_events"`
			} `yaml:"event_subscriptions"`
		}
	}
	if err := yaml.Unmarshal(out.Bytes(), &m); err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(m.OAuth.Scopes.Bot, slack.Scopes) {
		t.Errorf("scopes %v, want %v", m.OAuth.Scopes.Bot, slack.Scopes)
	}
	want := strings.Fields("app_mention message.channels message.groups message.im reaction_added reaction_removed")
	if !slices.Equal(m.Settings.Events.Bot, want) {
		t.Errorf("events %v, want %v", m.Settings.Events.Bot, want)
	}
}

// TestSlack_vet_online runs the command as a person does, against a double on this
// machine.
func TestSlack_vet_online(t *testing.T) {
	w := slackdouble.New(t, slackdouble.Options{PerMinute: map[string]int{"apps.connections.open": 100}})
	t.Setenv("CROSSLAY_SLACK_BOT_TOKEN", w.BotToken)
	t.Setenv("CROSSLAY_SLACK_APP_TOKEN", w.AppToken)
	t.Setenv(slackURL, w.URL())
	text := string(config.ExampleYAML)
	for _, name := range []string{"station-1", "shop", "officers"} {
		w.AddChannel(name)
		text = strings.Replace(text, `backend: terminal, address: "#`+name+`"`, `backend: slack, address: "#`+name+`"`, 1)
	}
	file := filepath.Join(t.TempDir(), "dept.yaml")
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	args := []string{"vet", "--online", "--secrets", t.TempDir(), file}
	if code := run(args); code != exitOK {
		t.Errorf("exit %d where all is well", code)
	}
	shop := w.AddChannel("shop-2")
	w.Remove(shop, w.BotUser)
	if err := os.WriteFile(file, []byte(strings.Replace(text, "#shop", shop, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	if code := run(args); code != exitWrong {
		t.Errorf("exit %d with a channel that the bot is not in", code)
	}
	for _, v := range w.Violations() {
		t.Errorf("violation: %v", v)
	}
}
