package config

import (
	"fmt"
	"regexp"
)

// How Matrix writes what a department file names: aliases and ids of rooms,
// accounts. The ids of newer rooms have no server's name.
var (
	matrixRoom   = regexp.MustCompile(`^(#[^\s:]+:[^\s:]+(:[0-9]+)?|![^\s:]+(:[^\s:]+(:[0-9]+)?)?)$`)
	matrixPerson = regexp.MustCompile(`^@[^\s:]+:[^\s:]+(:[0-9]+)?$`)
)

// onMatrix checks the address of a room on Matrix.
func (o object) onMatrix(address string) {
	if address != "" && !matrixRoom.MatchString(address) && !looksSecret(address) {
		o.wrong("address", fmt.Sprintf("%q is no room of Matrix", address), `Write its alias or its id in quotes, as in "#station-1:example.org" or "!abcdef:example.org"`)
	}
}

// ofMatrix checks the account of a person on Matrix.
func (o object) ofMatrix(account string) {
	if account != "" && !matrixPerson.MatchString(account) && !looksSecret(account) {
		o.wrong("matrix", fmt.Sprintf("%q is no account of Matrix", account), `Write it in full and in quotes, as in "@ana:example.org"`)
	}
}
