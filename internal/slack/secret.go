package slack

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Tokens let crosslay into a workspace.
type Tokens struct {
	Bot     string // xoxb-...: to speak and to read
	App     string // xapp-...: for Socket Mode
	Signing string // to tell Slack's HTTP requests from others
}

// String says which tokens are there, and never what they are.
func (t Tokens) String() string {
	return fmt.Sprintf("bot token: %s, app token: %s, signing secret: %s", there(t.Bot), there(t.App), there(t.Signing))
}

// GoString is String, for %#v.
func (t Tokens) GoString() string { return t.String() }

func there(s string) string {
	if s == "" {
		return "missing"
	}
	return "set"
}

// kept is where each secret is found: in the environment, or in a file.
var kept = []struct {
	env, file, begins string
	into              func(*Tokens) *string
}{
	{"CROSSLAY_SLACK_BOT_TOKEN", "slack-bot-token", "xoxb-", func(t *Tokens) *string { return &t.Bot }},
	{"CROSSLAY_SLACK_APP_TOKEN", "slack-app-token", "xapp-", func(t *Tokens) *string { return &t.App }},
	{"CROSSLAY_SLACK_SIGNING_SECRET", "slack-signing-secret", "", func(t *Tokens) *string { return &t.Signing }},
}

// ReadTokens reads the secrets from the environment, or else from files of dir
// that nobody but their owner may read. Its errors name places, never contents.
func ReadTokens(env func(string) string, dir string) (Tokens, error) {
	var t Tokens
	for _, k := range kept {
		text, from := env(k.env), k.env
		if text == "" && dir != "" {
			from = filepath.Join(dir, k.file)
			var err error
			if text, err = readSecret(from); err != nil {
				return Tokens{}, err
			}
		}
		text = strings.TrimSpace(text)
		if text != "" && !strings.HasPrefix(text, k.begins) {
			return Tokens{}, fmt.Errorf("%s: it should begin with %s; was another token put there?", from, k.begins)
		}
		*k.into(&t) = text
	}
	return t, t.enough(dir)
}

func (t Tokens) enough(dir string) error {
	switch {
	case t.Bot == "":
		return fmt.Errorf("the bot token is missing: set %s, or put it into %s", kept[0].env, filepath.Join(dir, kept[0].file))
	case t.App == "" && t.Signing == "":
		return fmt.Errorf("neither an app token (%s, for Socket Mode) nor a signing secret (%s, for HTTP) is set", kept[1].env, kept[2].env)
	}
	return nil
}

// readSecret reads a file of one secret; a missing one is empty.
func readSecret(path string) (string, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", fmt.Errorf("read a secret: %w", err)
	}
	if info.Mode().Perm()&0o077 != 0 {
		return "", fmt.Errorf("%s can be read by others; chmod 600 it", path)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return "", fmt.Errorf("read a secret: %w", err)
	}
	return string(data), nil
}
