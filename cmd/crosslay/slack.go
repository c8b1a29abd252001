package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/config"
	"crosslay/internal/serve"
	"crosslay/internal/slack"
)

// slackCmd helps whoever sets crosslay up on Slack.
type slackCmd struct {
	Manifest bool   `help:"Print the app's manifest alone, to paste."`
	DB       string `name:"db" default:"crosslay.db" help:"Database file beside which the secrets are kept." placeholder:"FILE"`
	secretsFlag
}

// Run prints what to click, in order, and how far one has got.
func (c *slackCmd) Run() error { return c.guide(os.Stdout, os.Getenv) }

func (c *slackCmd) guide(out io.Writer, env func(string) string) error {
	if c.Manifest {
		_, err := out.Write(config.SlackManifest)
		return err
	}
	dir := c.dir(c.DB)
	if _, err := fmt.Fprintf(out, slackSteps, dir); err != nil {
		return err
	}
	tokens, err := slack.ReadTokens(env, dir)
	if err != nil {
		_, err = fmt.Fprintf(out, "\nSo far: %v.\n", err)
		return err
	}
	_, err = fmt.Fprintf(out, "\nSo far: %v. Next: crosslay vet --online department.yaml\n", tokens)
	return err
}

// slackSteps leads from nothing to the first prompt.
const slackSteps = `crosslay on Slack, from nothing to the first prompt

 1. crosslay slack --manifest > manifest.yaml
 2. On https://api.slack.com/apps: Create New App, From a manifest, your workspace,
    paste the file, Create.
 3. Basic Information, App-Level Tokens, Generate: scope connections:write. It
    begins with xapp-.
 4. Install App, Install to Workspace, Allow. The Bot User OAuth Token begins
    with xoxb-. In some workspaces an administrator has to approve the app first.
 5. Keep both where only crosslay can read them: in the environment
      CROSSLAY_SLACK_BOT_TOKEN=xoxb-...  CROSSLAY_SLACK_APP_TOKEN=xapp-...
    or in files that nobody else may read (mkdir -m 700 the directory first,
    chmod 600 the files):
      %[1]s/slack-bot-token
      %[1]s/slack-app-token
 6. In the department file: backend: slack, address: the channel's id (C...; at
    the bottom of the channel's details) or its name with a #. For each person
    accounts: {slack: U...} (in the profile: Copy member ID).
 7. In every channel of the department file: /invite @crosslay
 8. crosslay vet --online department.yaml says what is still missing.
 9. crosslay serve --config department.yaml --db crosslay.db

Without Socket Mode, where Slack can reach the bot by https: set
CROSSLAY_SLACK_SIGNING_SECRET (Basic Information) instead of the app token, and
CROSSLAY_SLACK_LISTEN=127.0.0.1:8641, the address behind your web server.
`

const (
	// slackListen is where signed HTTP requests are taken, instead of Socket Mode.
	slackListen = "CROSSLAY_SLACK_LISTEN"
	// slackURL is the address of the Web API, for workspaces that have another.
	slackURL = "CROSSLAY_SLACK_URL"
)

func openSlack(p parts) (serve.Backend, error) {
	tokens, err := slack.ReadTokens(os.Getenv, p.secrets)
	if err != nil {
		return nil, err
	}
	cfg := slackConfig(tokens, p.setup)
	cfg.Bookmark = func(ctx context.Context, name string) (string, error) { return p.store.Cursor(ctx, slack.Name, name) }
	cfg.Report = func(err error) { p.log.Warn("slack", "error", err.Error()) }
	return slack.New(cfg)
}

func slackConfig(tokens slack.Tokens, setup func() bot.Setup) slack.Config {
	return slack.Config{
		Tokens: tokens, Listen: os.Getenv(slackListen), URL: os.Getenv(slackURL),
		Rooms: func() []string {
			var list []string
			for _, place := range roomsOn(setup(), slack.Name) {
				list = append(list, place.Room)
			}
			return list
		},
	}
}

func inspectSlack(ctx context.Context, setup bot.Setup, secrets string, rooms []chat.Place) []string {
	tokens, err := slack.ReadTokens(os.Getenv, secrets)
	if err != nil {
		return []string{err.Error() + "."}
	}
	return slack.Inspect(ctx, slackConfig(tokens, func() bot.Setup { return setup }), rooms)
}
