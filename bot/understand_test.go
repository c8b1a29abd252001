package bot

import "testing"

func TestExplained(t *testing.T) {
	for text, want := range map[string]string{
		"yes": "yes", "Yes.": "yes", "yep, filled it up": "yes", "we topped it off last night": "yes", "topped off this morning": "yes",
		"used on a call": "yes", "no": "no", "nope": "no", "nobody filled it": "no", "it wasn't": "no", "not filled": "no",
		"": "", "full": "", "3/4": "", "yes and the blade is bent": "", "filled the saw, pump is 1/2": "", "topped off the saw": "", "topped off the pump": "yes", "leak at the cap": "",
	} {
		if got := explained(text, []string{"power", "unit", "pump", "pu-01"}); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestPromises(t *testing.T) {
	for text, want := range map[string]bool{
		"ok will look": true, "I'll check": true, "on it": true, "let me look": true,
		"looks fine": false, "ok": false, "ok on it": true, "ok, there is silicone on it": false, "checked it, fine": false, "will not start": false,
	} {
		if promises(text) != want {
			t.Errorf("%q: %v", text, !want)
		}
	}
}

func TestBareFix(t *testing.T) {
	for text, want := range map[string]bool{
		"fixed": true, "Fixed it.": true, "it's fixed now": true, "cleaned them": true, "wiped it down": true, "all fixed": true,
		"fixed the left hose": false, "not fixed": false, "will be fixed": false, "fixed?": false, "cleaned them, one is cracked": false, "it": false,
	} {
		if bareFix(text) != want {
			t.Errorf("%q: %v", text, !want)
		}
	}
}
