package units

import (
	"errors"
	"math"
	"testing"
)

func TestSteelPipe(t *testing.T) {
	var last Pipe
	for i, row := range pipes {
		for _, s := range []PipeSchedule{Schedule80, Schedule40} {
			p, err := SteelPipe(MustParseLength(row.size), s)
			if err != nil {
				t.Fatal(err)
			}
			if p.Size != row.size || p.Schedule != s {
				t.Errorf("asked for %s schedule %d, got %s schedule %d", row.size, s, p.Size, p.Schedule)
			}
			if !(0 < p.Bore && p.Bore < p.Outside && p.Wall > 0) {
				t.Errorf("%s: bore %v, outside %v, wall %v", p.Size, p.Bore, p.Outside, p.Wall)
			}
			if d := float64(p.Bore + 2*p.Wall - p.Outside); math.Abs(d) > 1e-15 {
				t.Errorf("%s: bore and walls miss the outside by %g m", p.Size, d)
			}
			if s == Schedule40 && i > 0 && p.Bore <= last.Bore {
				t.Errorf("%s is not wider than %s", p.Size, last.Size)
			}
			last = p
		}
	}
	metric, err := SteelPipe(38.1*Millimeter, Schedule40)
	if err != nil || metric.Size != "1-1/2 in" {
		t.Errorf("38.1 mm: got %v, %v", metric.Size, err)
	}
	for _, c := range []struct {
		nominal Length
		s       PipeSchedule
		path    string
	}{
		{1.61 * Inch, Schedule40, "nominal"},
		{0, Schedule40, "nominal"},
		{Length(math.NaN()), Schedule40, "nominal"},
		{-1 * Inch, Schedule40, "nominal"},
		{8 * Inch, Schedule40, "nominal"},
		{1 * Inch, 0, "schedule"},
		{1 * Inch, 60, "schedule"},
	} {
		p, err := SteelPipe(c.nominal, c.s)
		var f *FieldError
		if !errors.As(err, &f) || !errors.Is(err, ErrRange) || f.Path != c.path || p != (Pipe{}) {
			t.Errorf("SteelPipe(%v, %d) = %v, %v", c.nominal, c.s, p, err)
		}
	}
}

func TestHoseBore(t *testing.T) {
	var last Hose
	for _, row := range hoses {
		h, err := HoseBore(MustParseLength(row.size))
		if err != nil {
			t.Fatal(err)
		}
		if h.Size != row.size || h.Dash != row.dash {
			t.Errorf("asked for %s, got %s", row.size, h.Size)
		}
		// The name in inches is one of the bores that pass, so that no row has
		// slipped against its name.
		if nominal := MustParseLength(row.size); nominal < h.Least || nominal > h.Most {
			t.Errorf("%s has bores from %v to %v", row.size, h.Least, h.Most)
		}
		if !(h.Least < h.Bore && h.Bore < h.Most && h.Least > last.Most) {
			t.Errorf("%s: %v, %v, %v after %v", h.Size, h.Least, h.Bore, h.Most, last.Most)
		}
		last = h
	}
	for _, l := range []Length{0, 10 * Millimeter, -1, Length(math.Inf(1)), 4 * Inch} {
		h, err := HoseBore(l)
		if !errors.Is(err, ErrRange) || h != (Hose{}) {
			t.Errorf("HoseBore(%v) = %v, %v", l, h, err)
		}
	}
}

func TestAWG(t *testing.T) {
	for _, same := range [][]string{
		{"12", "12 AWG", "12AWG", " 12 "},
		{"1/0", "0", "1/0 AWG"},
		{"2/0", "00"},
		{"3/0", "000"},
		{"4/0", "0000", "0000 AWG"},
	} {
		first, err := AWG(same[0])
		if err != nil {
			t.Fatal(err)
		}
		if want := same[0] + " AWG"; first.Size != want {
			t.Errorf("AWG(%q) names itself %q", same[0], first.Size)
		}
		for _, s := range same[1:] {
			if w, err := AWG(s); err != nil || w != first {
				t.Errorf("AWG(%q) = %v, %v; want %v", s, w, err, first)
			}
		}
	}
	// ASTM B258: six gauges halve the diameter nearly, 39 steps make 92 times.
	thick, _ := AWG("4/0")
	thin, _ := AWG("36")
	if r := float64(thick.Diameter / thin.Diameter); math.Abs(r-92) > 92e-12 {
		t.Errorf("4/0 is %v times 36, want 92", r)
	}
	for _, c := range []struct {
		size string
		kind error
	}{
		{"5/0", ErrRange}, {"41", ErrRange}, {"99", ErrRange}, {"00000", ErrSyntax},
		{"", ErrSyntax}, {"AWG", ErrSyntax}, {"-1", ErrSyntax}, {"012", ErrSyntax}, {"1/1", ErrSyntax},
		{"0/0", ErrSyntax}, {"12.5", ErrSyntax}, {"100", ErrSyntax}, {"12 mm", ErrSyntax}, {"/0", ErrSyntax},
	} {
		if w, err := AWG(c.size); !errors.Is(err, c.kind) || w != (Wire{}) {
			t.Errorf("AWG(%q) = %v, %v; want %v", c.size, w, err, c.kind)
		}
	}
}
