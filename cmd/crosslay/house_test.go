package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// house is the plan of the house: which packages of ours each package may
// import. A trailing /* stands for everything below.
var house = map[string][]string{
	"bot/dept":        {},
	"bot/chat":        {},
	"bot/rota":        {"bot/dept"},
	"bot/check":       {"bot/dept"},
	"bot/reply":       {"bot/dept", "bot/check"},
	"bot/defect":      {"bot/dept", "bot/check"},
	"bot/run":         {"bot/dept", "bot/check"},
	"bot/fuel":        {"bot/check"},
	"bot/fluid":       {"bot/check"},
	"bot/service":     {"bot/dept", "bot/check", "bot/run"},
	"bot/reliability": {},
	"bot/cover":       {"bot/dept"},
	"bot/nag":         {"bot/dept"},
	"bot/status": {
		"bot/dept", "bot/rota", "bot/check", "bot/defect", "bot/run", "bot/fuel", "bot/fluid", "bot/service",
		"bot/reliability", "bot/cover", "bot/nag",
	},
	"bot/wording": {
		"bot/dept", "bot/chat", "bot/rota", "bot/check", "bot/defect", "bot/run", "bot/fuel", "bot/fluid", "bot/service",
		"bot/reliability", "bot/cover", "bot/nag", "bot/status",
	},
	"bot":               {"bot/*"},
	"config":            {"bot/dept", "bot/rota", "bot/check", "bot/service", "bot/nag"},
	"internal/outbox":   {"bot/chat"},
	"internal/sqlite":   {"bot", "bot/*", "internal/outbox"},
	"internal/slack":    {"bot/chat"},
	"internal/matrix":   {"bot/chat"},
	"internal/terminal": {"bot/chat"},
	"internal/chattest": {"bot/chat", "internal/outbox"}, // the poster that a bench holds
	"internal/ledger":   {"bot", "bot/*"},                // what records come to, for picture and export alike
	"internal/picture":  {"bot/*", "internal/ledger"},
	"internal/export":   {"bot", "bot/*", "internal/ledger"},
	"internal/serve":    {"bot", "bot/chat", "internal/outbox"},
	"internal/story": {
		"bot", "bot/*", "config", "internal/outbox", "internal/sqlite", "internal/terminal", "internal/chattest", "internal/serve",
	},
	"cmd/crosslay":               {"*"},
	"internal/slack/slackdouble": {}, // knows Slack, and nothing of ours
}

// suites are packages of tests alone; they import what they try.
var suites = []string{"internal/sqlite/storetest", "internal/matrix/matrixtest"}

// forbidden is what nothing under bot/ imports: no services, no clock but the
// one handed in, no dice. Time itself is a value there; its clock is looked for
// in the sources.
var forbidden = []string{"database/sql", "net/http", "log/slog", "math/rand", "math/rand/v2", "crypto/rand", "os"}

const module = "crosslay/"

type goPackage struct {
	ImportPath string
	Dir        string
	GoFiles    []string
	Imports    []string
}

func packages(t *testing.T) []goPackage {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Dir,GoFiles,Imports", module+"...")
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var list []goPackage
	for dec := json.NewDecoder(bytes.NewReader(out)); dec.More(); {
		var p goPackage
		if err := dec.Decode(&p); err != nil {
			t.Fatal(err)
		}
		list = append(list, p)
	}
	return list
}

func TestHouse(t *testing.T) {
	list := packages(t)
	if len(list) < 10 {
		t.Fatalf("go list finds %d packages", len(list))
	}
	for _, p := range list {
		name := strings.TrimPrefix(p.ImportPath, module)
		if slices.Contains(suites, name) {
			continue
		}
		may, planned := house[name]
		if !planned && len(p.GoFiles) > 0 {
			t.Errorf("%s is not in the plan of the house", name)
			continue
		}
		for _, imp := range p.Imports {
			if ours, ok := strings.CutPrefix(imp, module); ok && !allowed(may, ours) {
				t.Errorf("%s must not import %s", name, ours)
			}
			if underBot(name) && slices.Contains(forbidden, imp) {
				t.Errorf("%s must not import %s", name, imp)
			}
		}
	}
}

func underBot(name string) bool { return name == "bot" || strings.HasPrefix(name, "bot/") }

func allowed(may []string, name string) bool {
	return slices.ContainsFunc(may, func(m string) bool {
		below, star := strings.CutSuffix(m, "*")
		return m == name || star && strings.HasPrefix(name, below)
	})
}

func TestHouse_can_fail(t *testing.T) {
	for _, c := range []struct {
		from, to string
		want     bool
	}{
		{"bot", "bot/reply", true},
		{"bot/reply", "bot/chat", false},
		{"internal/terminal", "bot", false},
		{"internal/terminal", "internal/sqlite", false},
		{"internal/story", "internal/slack", false},
		{"config", "bot", false},
	} {
		if got := allowed(house[c.from], c.to); got != c.want {
			t.Errorf("%s may import %s: %v", c.from, c.to, got)
		}
	}
}

// asks are the ways to ask the clock.
var asks = regexp.MustCompile(`\btime\.(Now|Since|Until|Sleep|After|AfterFunc|Tick|NewTimer|NewTicker)\(`)

// TestHouse_no_clock: under bot/, time is handed in.
func TestHouse_no_clock(t *testing.T) {
	for _, p := range packages(t) {
		if !underBot(strings.TrimPrefix(p.ImportPath, module)) {
			continue
		}
		for _, f := range p.GoFiles {
			text, err := os.ReadFile(filepath.Join(p.Dir, f))
			if err != nil {
				t.Fatal(err)
			}
			if at := asks.Find(text); at != nil {
				t.Errorf("%s/%s asks the clock: %s", p.ImportPath, f, at)
			}
		}
	}
}
