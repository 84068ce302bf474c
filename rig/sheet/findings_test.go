package sheet_test

import (
	"regexp"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/sheet"
)

// What is printed of a finding can be read: a breach is no "160 °F against 160 °F",
// what is held against nothing has its distance, and a state that must not be has no
// limit of zero.
func TestFindings_readable(t *testing.T) {
	t.Parallel()
	noValves := []rig.Change{rig.Set("pumps[main].unloader.part", ""), rig.Set("pumps[main].relief.part", "")}
	breach := regexp.MustCompile(` (\S+ \S+) against (\S+ \S+), (?:past|short of) it`)
	for _, x := range []struct {
		rig  string
		c    []rig.Change
		want []string // patterns
	}{
		{"A", nil, []string{`159\.\d+ °F against 160 °F, short of it by`}}, // a hair too cold: the digits that show it
		{"D", nil, []string{`-\d+\.\d+ in against 0 in, short of it by \d+\.\d+ in`}},
		// 3,500 psi stands on the pump's plate. Without an unloader one of two equal guns
		// takes the flow of both: twice the flow, four times the pressure, 300 % more.
		{"B", noValves, []string{`first rating passed when the guns close 3500 psi — every gun closed`, `jump when the others let go 300 % against 10 %`, `Follows from: nothing limits the pressure when the guns close\.`}},
	} {
		m, err := demo.Model(x.rig)
		if err != nil {
			t.Fatal(err)
		}
		if m, err = m.With(x.c...); err != nil {
			t.Fatal(err)
		}
		d, err := sheet.Technician(assess(t, m, nil), &sheet.Options{Full: true})
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(written(t, d, (*sheet.Document).WriteText)), " ")
		for _, w := range x.want {
			if !regexp.MustCompile(w).MatchString(text) {
				t.Errorf("rig %s: the page does not say %q", x.rig, w)
			}
		}
		for _, e := range breach.FindAllStringSubmatch(text, -1) {
			if e[1] == e[2] {
				t.Errorf("rig %s: %s", x.rig, e[0])
			}
		}
	}
}

// What follows from one mistake takes one of the places of the short page.
func TestFindings_placesByCause(t *testing.T) {
	t.Parallel()
	m, err := demo.Model("B")
	if err != nil {
		t.Fatal(err)
	}
	if m, err = m.With(rig.Set("pumps[main].unloader.part", ""), rig.Set("pumps[main].relief.part", "")); err != nil {
		t.Fatal(err)
	}
	d, err := sheet.Dealer(assess(t, m, nil), nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	text := written(t, d, (*sheet.Document).WriteText)
	for _, code := range []string{"dead-head", "source-restart", "recovery-no-room", "boiling-margin", "recovery-air-slow"} {
		if !strings.Contains(text, code+")") {
			t.Errorf("%s has no place beside what follows from the missing valves", code)
		}
	}
	if at := strings.Index(text, "dead-head)"); at < 0 || at > strings.Index(text, "engine-overload)") {
		t.Error("the missing valves do not stand before what follows from them")
	}
}
