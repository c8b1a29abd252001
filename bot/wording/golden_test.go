package wording

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crosslay/bot/chat"
)

var update = flag.Bool("update", false, "write the golden files anew")

// spoken is one message of a golden file, under a heading that says when it is
// said.
type spoken struct {
	when   string
	blocks []chat.Block
}

// golden compares messages with testdata/name.txt, in which an officer can read
// them: the role of each block, then its lines.
func golden(t *testing.T, name string, all []spoken) {
	t.Helper()
	var b strings.Builder
	for _, s := range all {
		fmt.Fprintf(&b, "== %s\n", s.when)
		for _, block := range s.blocks {
			for _, line := range block.Lines {
				fmt.Fprintf(&b, "%-6s | %s\n", block.Role, line)
			}
		}
		b.WriteByte('\n')
		fits(t, s.when, s.blocks)
	}
	file := filepath.Join("testdata", name+".txt")
	if *update {
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != b.String() {
		t.Errorf("%s differs; run go test ./bot/wording -update and read the change\n%s", file, firstChange(string(want), b.String()))
	}
}

func firstChange(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(w), len(g)) {
		if w[i] != g[i] {
			return fmt.Sprintf("line %d\nwant %s\ngot  %s", i+1, w[i], g[i])
		}
	}
	return "one has more lines than the other"
}

// fits holds what is true of every message: something is said, and each line
// fits a phone.
func fits(t *testing.T, when string, all []chat.Block) {
	t.Helper()
	if len(all) == 0 {
		t.Errorf("%s: nothing is said", when)
	}
	for _, b := range all {
		if len(b.Lines) == 0 {
			t.Errorf("%s: a block without lines", when)
		}
		for _, line := range b.Lines {
			if size(line) > Width {
				t.Errorf("%s: %d characters: %q", when, size(line), line)
			}
			if line == "" || line != strings.TrimSpace(line) || strings.ContainsAny(line, "\n\r\t") {
				t.Errorf("%s: a line that is not one: %q", when, line)
			}
		}
	}
}

func text(all []chat.Block) string { return chat.Message{Blocks: all}.Plain() }
