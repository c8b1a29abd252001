package config

import (
	"regexp"
	"strings"
)

// A department file is passed around and shown to people, so nothing in it may
// open a door. These are the shapes of tokens of the services that crosslay
// talks through, and of private keys.
var (
	secretValue = regexp.MustCompile(`(?i)\b(xox[a-z](\.xox[a-z])?-|xapp-|syt_)[A-Za-z0-9_.\-]*|\b(mct_|mat_|bearer\s+)[A-Za-z0-9_.\-]{20,}|-----BEGIN[A-Z ]*PRIVATE KEY`)
	secretKey   = regexp.MustCompile(`(?i)^(.*[_-])?(password|passwd|passphrase|passcode|token|secret|api_?key|private_?key|credentials?)$`)
	secretPair  = regexp.MustCompile(`(?i)(^|[\s{,"'#_-])(password|passwd|passphrase|token|secret|api_?key)["']?\s*[:=]\s*\S`)
)

const (
	secretText    = "this looks like a secret, and a department file must hold none"
	secretInstead = "Take it out, put it where the service reads its environment, and replace it at the service, since it has been in a file"
)

func looksSecret(s string) bool { return secretValue.MatchString(s) }

// hideSecrets blanks what looks like a secret in a sentence about the file.
func hideSecrets(s string) string { return secretValue.ReplaceAllString(s, "(hidden)") }

// secretLines reports lines of the raw text, comments included, that hold a
// secret and were not reported by their key.
func (r *reader) secretLines(data string) {
	told := map[int]bool{}
	for _, p := range r.problems {
		if p.Text == secretText {
			told[p.Line] = true
		}
	}
	for i, line := range strings.Split(data, "\n") {
		if !told[i+1] && (looksSecret(line) || secretPair.MatchString(line)) {
			r.add(i+1, "", secretText, secretInstead)
		}
	}
}
