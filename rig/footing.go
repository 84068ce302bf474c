package rig

import (
	"math"

	"example.com/washrig/internal/fields"
)

// A Footing says what a computed number rests on: the weakest basis among the
// inputs of its metric, and those of them that are assumed.
type Footing struct {
	Basis   Basis  // empty: values of the specification that state no basis
	Assumed []Path // in the order of the specification
}

// weakness ranks bases; a value that states none is weaker than a catalogue's
// and stronger than an assumption.
func weakness(b Basis) int {
	switch b {
	case Measured:
		return 1
	case Nameplate:
		return 2
	case Catalogue:
		return 3
	case Assumed:
		return 5
	}
	return 4
}

// Footing returns what the readings of a metric rest on. Every component that
// the metric may read counts, those beside the reading's own included, so the
// basis is never stated better than it is.
func (m *Model) Footing(metric Path) Footing {
	var f Footing
	mt, ok := MetricOf(metric)
	t, err := specTable()
	if !ok || err != nil {
		return f
	}
	weakest := 0
	t.Walk(m.spec, func(v *fields.Visit) bool {
		p := Path(v.Path())
		if v.Field.Kind == 0 || v.Value.IsZero() || !mt.dependsOn(p) {
			return true
		}
		b := m.Origin(p).Basis
		if b == Assumed {
			f.Assumed = append(f.Assumed, p)
		}
		if w := weakness(b); w > weakest {
			weakest, f.Basis = w, b
		}
		return true
	})
	return f
}

// A Spread is the tolerance of one value of the specification as an absolute
// half-width, in the unit the value's kind counts in (see units.Kind.Base).
type Spread struct {
	Path      Path
	HalfWidth float64
	Normal    bool // twice a standard deviation instead of certain limits
}

// Spreads returns the tolerance of every quantity that has one, in the order
// of the specification. The longest entry of the tolerance table counts.
func (m *Model) Spreads() []Spread {
	t, err := specTable()
	if err != nil || len(m.spreads) == 0 {
		return nil
	}
	var out []Spread
	t.Walk(m.spec, func(v *fields.Visit) bool {
		p := Path(v.Path())
		if v.Field.Kind == 0 || v.Value.IsZero() {
			return true
		}
		tol, ok := m.Tolerance(p)
		if !ok {
			return true
		}
		s := Spread{Path: p, Normal: tol.Normal}
		if tol.HalfWidth.Given() {
			s.HalfWidth = tol.HalfWidth.SI()
		} else if q, given := m.Quantity(p); given {
			s.HalfWidth = math.Abs(tol.Share * q.SI())
		}
		if s.HalfWidth > 0 {
			out = append(out, s)
		}
		return true
	})
	return out
}
