package config

import (
	_ "embed"
	"fmt"
	"regexp"
)

// SlackManifest describes the app that a department on Slack installs: paste it
// where Slack asks for an app's manifest.
//
//go:embed slack-manifest.yaml
var SlackManifest []byte

// How Slack writes what a department file names: ids of channels, names of
// channels, ids of people.
var (
	slackChannel = regexp.MustCompile(`^([CG][A-Z0-9]{6,}|#[^\sA-Z#@]{1,80})$`)
	slackPerson  = regexp.MustCompile(`^[UW][A-Z0-9]{6,}$`)
)

// onSlack checks the address of a room on Slack.
func (o object) onSlack(address string) {
	if address != "" && !slackChannel.MatchString(address) && !looksSecret(address) {
		o.wrong("address", fmt.Sprintf("%q is no channel of Slack", address), "Write the channel's id (C...), or its name in small letters with a #")
	}
}

// ofSlack checks the account of a person on Slack.
func (o object) ofSlack(account string) {
	if account != "" && !slackPerson.MatchString(account) && !looksSecret(account) {
		o.wrong("slack", fmt.Sprintf("%q is no member of Slack", account), "Write the member ID (U...), which the person's profile has under Copy member ID")
	}
}
