package config

import _ "embed"

// SlackManifest describes the app that a department on Slack installs: paste it
// where Slack asks for an app's manifest.
//
//go:embed slack-manifest.yaml
var SlackManifest []byte
