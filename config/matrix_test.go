package config

import "testing"

func TestMatrix_addresses(t *testing.T) {
	for address, ok := range map[string]bool{
		"#station-1:example.org": true, "#Rüstwagen:example.org": true, "#st1:localhost:8448": true, "!abcDEF:example.org": true,
		"!31hneApxJ_1o-63DmFrpeqnkFfWppnzWso1JvH3ogLM": true,
		"station-1": false, "#station-1": false, "#station 1:example.org": false, "@ana:example.org": false, "!": false, "#:example.org": false,
	} {
		if matrixRoom.MatchString(address) != ok {
			t.Errorf("%q is taken for a room: %v", address, !ok)
		}
	}
	for account, ok := range map[string]bool{"@ana:example.org": true, "@ana.r:localhost:8448": true, "ana": false, "@ana": false, "ana:example.org": false} {
		if matrixPerson.MatchString(account) != ok {
			t.Errorf("%q is taken for an account: %v", account, !ok)
		}
	}
}
