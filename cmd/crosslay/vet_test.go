package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestVetCountsWhatACleanFileHolds(t *testing.T) {
	var out strings.Builder
	c := vetCmd{File: filepath.Join("..", "..", "testdata", "saw-and-fan.yaml")}
	if err := c.vet(&out); err != nil {
		t.Fatal(err)
	}
	if want := "no mistakes: 1 station, 1 company, 2 items of 2 kinds, 4 people\n"; !strings.HasSuffix(out.String(), want) {
		t.Errorf("got %q, want it to end in %q", out.String(), want)
	}
}

func TestVetPrintsEveryMistakeAndFails(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bad.yaml")
	if err := os.WriteFile(path, []byte("department: X\nzone: Nowhere/Town\ncolour: red\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	err := (&vetCmd{File: path}).vet(&out)
	if err == nil || !strings.Contains(err.Error(), "mistakes") {
		t.Fatalf("a bad file gave the error %v", err)
	}
	for _, want := range []string{path + ":2: zone: ", path + ":3: colour: "} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no line begins with %q in\n%s", want, out.String())
		}
	}
}

func TestVetOfNoFile(t *testing.T) {
	var out strings.Builder
	if err := (&vetCmd{File: filepath.Join(t.TempDir(), "none.yaml")}).vet(&out); err == nil {
		t.Fatal("a missing file passed")
	}
	if !strings.Contains(out.String(), "there is no such file") {
		t.Errorf("got %q", out.String())
	}
}
