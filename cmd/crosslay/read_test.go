package main

import (
	"bytes"
	"strings"
	"testing"
)

func TestRead(t *testing.T) {
	cmd := readCmd{Config: "../../testdata/saw-and-fan.yaml", Company: "E21", At: "2026-11-25T07:30"}
	for in, want := range map[string]string{
		"all good": `{"text":"all good","intent":"answer","results":[{"check":"saw.bar_oil","state":"ok","words":"all good"},` +
			`{"check":"saw.chain","state":"ok","words":"all good"},{"check":"fan.guard","state":"ok","words":"all good"}],"not_understood":[],"ask":["saw.fuel","saw.run","fan.fuel","fan.run"]}`,
		"morning all": `{"text":"morning all","intent":"chatter","results":[],"not_understood":[],"ask":[]}`,
		"fan ran 7 to 7:08": `{"text":"fan ran 7 to 7:08","intent":"answer","results":[{"check":"fan.run","state":"ok","value":8,` +
			`"words":"fan ran 7 to 7:08"}],"not_understood":[],"ask":[]}`,
	} {
		var out bytes.Buffer
		if err := cmd.read(strings.NewReader(in+"\n"), &out); err != nil {
			t.Fatal(err)
		}
		if got := strings.TrimSpace(out.String()); got != want {
			t.Errorf("%q\n got %s\nwant %s", in, got, want)
		}
	}
}

func TestReadObjects(t *testing.T) {
	cmd := readCmd{Config: "../../testdata/saw-and-fan.yaml", Company: "E21", At: "2026-11-25T07:30", JSONL: true}
	var out bytes.Buffer
	if err := cmd.read(strings.NewReader(`{"text":"guard cracked"}`), &out); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out.String(), `"check":"fan.guard","state":"fault"`) {
		t.Errorf("got %s", out.String())
	}
	if err := cmd.read(strings.NewReader("guard cracked"), &out); err == nil || !strings.Contains(err.Error(), "line 1") {
		t.Errorf("a line that is no object: %v", err)
	}
	cmd.Company = "E99"
	if err := cmd.read(strings.NewReader(""), &out); err == nil || !strings.Contains(err.Error(), "E99") {
		t.Errorf("a company that is not there: %v", err)
	}
}
