package config_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"crosslay/config"
)

// Whatever the bytes, Parse neither panics nor hangs, and gives either a
// department that the rota can work or problems that all have words.
func FuzzParse(f *testing.F) {
	f.Add([]byte(small))
	f.Add(config.ExampleYAML)
	for _, m := range mistakes {
		f.Add([]byte(strings.Replace(small, m.old, m.new, 1)))
	}
	for _, s := range []string{"", "a: &a [*a]", "? x\n: y", "<<: {a: 1}", "!!binary x: 1", "a: |\n  x\n", "[{}]: 1", "- - - -", "{a: 1, a: }", "%YAML 1.2\n---\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := config.Parse("f", data)
		if err == nil {
			d.Rota.At(time.Unix(1e9, 0))
			return
		}
		var problems config.Problems
		if !errors.As(err, &problems) || len(problems) == 0 {
			t.Fatalf("the error %v is no list of problems", err)
		}
		for _, p := range problems {
			if p.Text == "" {
				t.Errorf("a problem of line %d, key %q has no words", p.Line, p.Key)
			}
		}
	})
}
