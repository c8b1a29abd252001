package main

import (
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crosslay/internal/sqlite"
)

// cross runs a command line and returns its exit code and what it printed.
func cross(t *testing.T, args ...string) (code int, out, errs string) {
	t.Helper()
	o, e := redirect(t, &os.Stdout), redirect(t, &os.Stderr)
	code = run(args)
	return code, o(), e()
}

// redirect puts a file in the place of one of the standard ones.
func redirect(t *testing.T, std **os.File) func() string {
	t.Helper()
	f, err := os.CreateTemp(t.TempDir(), "out")
	if err != nil {
		t.Fatal(err)
	}
	was := *std
	*std = f
	return func() string {
		*std = was
		defer f.Close()
		if _, err := f.Seek(0, io.SeekStart); err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(f)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
}

func file(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestRun_exit_codes(t *testing.T) {
	unfulfilled := file(t, "x.story", "at 2026-11-25 06:59\nexpect prompt\n")
	cases := map[string]struct {
		args []string
		code int
		want string // in what it printed, either way
	}{
		"help":            {[]string{"--help"}, exitOK, "rehearse"},
		"version":         {[]string{"version"}, exitOK, "encryption for Matrix"},
		"nothing":         {nil, exitUsage, "lists the commands"},
		"unknown":         {[]string{"fly"}, exitUsage, "fly"},
		"unknown_flag":    {[]string{"try", "--fast"}, exitUsage, "--fast"},
		"no_story":        {[]string{"rehearse"}, exitWrong, "either a story"},
		"story_missing":   {[]string{"rehearse", "no.story"}, exitWrong, "no.story"},
		"story_fails":     {[]string{"rehearse", unfulfilled}, exitWrong, "x.story:2: expected a said prompt"},
		"config_missing":  {[]string{"try", "--config", "no.yaml"}, exitWrong, "there is no such file"},
		"records_no_file": {[]string{"records", "--db", "no.db"}, exitWrong, "no.db"},
		"records_no_day":  {[]string{"records", "--db", "no.db", "--since", "May"}, exitWrong, "is not a day"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			code, out, errs := cross(t, c.args...)
			if code != c.code || !strings.Contains(out+errs, c.want) {
				t.Errorf("code %d, want %d and %q in:\n%s%s", code, c.code, c.want, out, errs)
			}
		})
	}
}

func TestRun_second_on_one_database_is_refused(t *testing.T) {
	db := filepath.Join(t.TempDir(), "x.db")
	store, err := sqlite.Open(db, sqlite.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer store.Close()
	if code, _, errs := cross(t, "try", "--db", db); code != exitInUse || !strings.Contains(errs, "another crosslay has") {
		t.Errorf("code %d: %s", code, errs)
	}
}

func TestRehearse_then_records(t *testing.T) {
	db := filepath.Join(t.TempDir(), "x.db")
	story := "../../testdata/stories/morning.story"
	code, out, errs := cross(t, "rehearse", story, "--db", db, "--json")
	if code != exitOK {
		t.Fatalf("code %d: %s", code, errs)
	}
	kinds := map[string]int{}
	for _, l := range strings.Split(strings.TrimSpace(out), "\n") {
		var e struct{ What, Kind string }
		if err := json.Unmarshal([]byte(l), &e); err != nil {
			t.Fatalf("%v in %s", err, l)
		}
		kinds[e.What+" "+e.Kind]++
	}
	for _, want := range []string{"said prompt", "said echo", "said defect", "said news", "said status", "recorded reading", "recorded run"} {
		if kinds[want] == 0 {
			t.Errorf("no %s in %v", want, kinds)
		}
	}
	code, out, errs = cross(t, "records", "--db", db, "--kind", "reading", "--item", "e1-pump")
	if code != exitOK || !strings.Contains(out, `"item":"e1-pump","check":"fuel","state":"ok"`) || strings.Contains(out, "e1-saw") {
		t.Errorf("code %d: %s%s", code, out, errs)
	}
	code, out, errs = cross(t, "records", "--db", db, "--format", "csv", "--company", "E1")
	if code != exitOK || !strings.HasPrefix(out, "id,kind,at,") || strings.Count(out, "\n") < 10 {
		t.Errorf("code %d: %s%s", code, out, errs)
	}
}
