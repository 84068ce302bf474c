package sheet_test

import (
	"bytes"
	"html"
	"strings"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/rig/sheet"
	"example.com/washrig/units"
)

// Rigs that were judged by one changed limit say so side by side, and rigs judged
// by different ones say which was judged by which.
func TestComparison_saysWhatWasChanged(t *testing.T) {
	with := func(p *rig.Policy) *rig.Report { return assess(t, small(t), p) }
	page := func(reports ...*rig.Report) string {
		c, err := batch.Compare(nil, reports...)
		if err != nil {
			t.Fatal(err)
		}
		d, err := sheet.Comparison(c, nil)
		if err != nil {
			t.Fatal(err)
		}
		return written(t, d, (*sheet.Document).WriteMarkdown)
	}
	same := page(with(strict()), with(strict()))
	for _, want := range []string{"Limits and defaults the dealer changed", "the workshop, 2026-06-01, operators idle longer here", "stop from 12 h", "switched off by the dealer's policy"} {
		if strings.Count(same, want) != 1 {
			t.Errorf("%d times %q:\n%s", strings.Count(same, want), want, same)
		}
	}
	if strings.Contains(same, " alone\n") {
		t.Error("what holds for all is said of one")
	}
	if differ := page(with(nil), with(strict())); !strings.Contains(differ, "; for rig 2 (small) alone") || !strings.Contains(differ, "operators idle longer here") {
		t.Errorf("the second rig's limit is not said:\n%s", differ)
	}
	if none := page(with(nil), with(nil)); strings.Contains(none, "dealer changed") {
		t.Error("the library's own limits are called changed")
	}
}

// A drawing that stands alone says what was changed, to the eye and to a reader.
func TestDeck_saysWhatWasChanged(t *testing.T) {
	m, err := rig.New(readSpec(t, deckSpec), nil)
	if err != nil {
		t.Fatal(err)
	}
	p := strict()
	d, ok, err := sheet.Deck(assess(t, m, p), nil)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	var b bytes.Buffer
	if err := d.WriteSVG(&b); err != nil {
		t.Fatal(err)
	}
	text := html.UnescapeString(b.String())
	desc, body, ok := strings.Cut(text, "</desc>")
	if !ok {
		t.Fatal("no description")
	}
	for _, x := range assess(t, m, p).PolicyChanges().Words(units.US, 4) {
		if !strings.Contains(plainSpaces(desc), plainSpaces(x)) {
			t.Errorf("the description lacks %q", x)
		}
	}
	for _, word := range []string{"the workshop", "2026-06-01", "Changed by the dealer."} {
		if !strings.Contains(plainSpaces(body), word) {
			t.Errorf("the picture lacks %q", word)
		}
	}
}

// Every page, and what stands beside it, says a change in the same words.
func TestPages_sayChangesAlike(t *testing.T) {
	rep := assess(t, small(t), strict())
	for name, d := range everyPage(t, rep, nil, nil) {
		text := written(t, d, (*sheet.Document).WriteMarkdown)
		for _, x := range rep.PolicyChanges().Words(units.US, 4) {
			if !strings.Contains(text, x) {
				t.Errorf("%s lacks %q", name, x)
			}
		}
	}
}
