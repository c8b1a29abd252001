package story

import (
	"path/filepath"
	"testing"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/config"
)

// TestFluidReadAsALevel has a sheet whose fluid is read as a fraction between the
// marks. A rod of 1.5 in and a stroke of 10 in hold 17.67 in³ or 289.6 mL more when
// open (area x stroke), on a gauge of 12 fl oz or 354.9 mL: .816 of it. A quarter
// read open is 1.066 closed, an empty gauge .816.
func TestFluidReadAsALevel(t *testing.T) {
	d := config.Example()
	fluid, ok := d.Book["power_unit"].Check("fluid")
	if !ok {
		t.Fatal("the example has no fluid")
	}
	low := 0.5
	fluid.Answer = check.Answer{Kind: check.Level, Min: &low, Step: 0.125}
	setup := bot.Setup{Dept: d.Dept, Book: d.Book, Rota: d.Rota, Ladders: d.Ladders}
	steps, err := Parse("level", `at 2026-11-25 06:59
+1m
ravi in E1: hydraulic fluid 1/4
expect ask in=E1 text="tips about 1/4 inch apart?"
ravi in E1: it was open
expect ask in=E1 text="Closed, it would stand over the upper mark. Open, the tool holds up to 9.8 fl oz more"
expect no record reading check=fluid state=fault
expect no defect
suri in T1: hydraulic fluid 1/8
suri in T1: closed
expect record reading item=t1-pump check=fluid state=fault value=0.125
`)
	if err != nil {
		t.Fatal(err)
	}
	script := Script{Name: "level", Steps: steps}
	begin, err := script.Begin(setup)
	if err != nil {
		t.Fatal(err)
	}
	w, err := New(setup, filepath.Join(t.TempDir(), "crosslay.db"), begin, Options{Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	if err := script.Play(w); err != nil {
		t.Error(err)
	}
}
