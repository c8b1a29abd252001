package config

import (
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
)

func TestSlack_addresses(t *testing.T) {
	for address, ok := range map[string]bool{
		"C0123456789": true, "G0123456789": true, "#station-1": true, "#staffel-süd": true,
		"station-1": false, "C1": false, "#Station 1": false, "D0123456789": false, "c0123456789": false, "#": false,
	} {
		if slackChannel.MatchString(address) != ok {
			t.Errorf("%q is taken for a channel: %v", address, !ok)
		}
	}
	for account, ok := range map[string]bool{"U01ABCDEF": true, "W01ABCDEF": true, "ana": false, "@ana": false, "u01abcdef": false} {
		if slackPerson.MatchString(account) != ok {
			t.Errorf("%q is taken for a member: %v", account, !ok)
		}
	}
}

// TestSlackManifest holds the manifest to Slack's own limits: 140 characters of
// description, 35 of a name, 1000 of a usage hint.
func TestSlackManifest(t *testing.T) {
	var m struct {
		Display struct {
			Name, Description string
		} `yaml:"display_information"`
		Features struct {
			Commands []struct {
				Command, Description string
				Hint                 string `yaml:"usage_hint"`
			} `yaml:"slash_commands"`
		}
		Settings struct {
			SocketMode bool `yaml:"socket_mode_enabled"`
		}
	}
	if err := yaml.Unmarshal(SlackManifest, &m); err != nil {
		t.Fatal(err)
	}
	if len(m.Display.Name) > 35 || len(m.Display.Description) > 140 || !m.Settings.SocketMode {
		t.Errorf("%+v", m)
	}
	if len(m.Features.Commands) != 1 || m.Features.Commands[0].Command != "/crosslay" || len(m.Features.Commands[0].Hint) > 1000 {
		t.Errorf("commands %+v", m.Features.Commands)
	}
	if strings.Contains(string(SlackManifest), "xox") {
		t.Error("the manifest holds a token")
	}
}
