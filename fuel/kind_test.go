package fuel_test

import (
	"errors"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/units"
)

func TestKind_textRoundTrip(t *testing.T) {
	seen := map[string]bool{}
	for i, k := range fuel.Kinds() {
		text, err := k.MarshalText()
		if err != nil || string(text) != k.String() || seen[k.String()] {
			t.Errorf("%v: %q, %v", k, text, err)
		}
		seen[k.String()] = true
		var back fuel.Kind
		if err := back.UnmarshalText(text); err != nil || back != k || !k.Known() {
			t.Errorf("%q reads as %v, %v", text, back, err)
		}
		if p, err := fuel.PropertiesOf(k); err != nil || p.Kind != k {
			t.Errorf("row %d is of %v, want %v (%v)", i, p.Kind, k, err)
		}
	}
	if len(seen) != 9 || fuel.Kinds()[0] != fuel.GasolineE0 || fuel.Kinds()[8] != fuel.NaturalGas {
		t.Errorf("the table is %v", fuel.Kinds())
	}
}

func TestKind_unknown(t *testing.T) {
	for _, s := range []string{"", "Diesel-2", "diesel", " diesel-2", "Kind(4)"} {
		if k, err := fuel.ParseKind(s); !errors.Is(err, units.ErrSyntax) || k != 0 {
			t.Errorf("%q reads as %v, %v", s, k, err)
		}
		k := fuel.Diesel2
		if err := k.UnmarshalText([]byte(s)); err == nil || k != fuel.Diesel2 {
			t.Errorf("%q changed the kind to %v", s, k)
		}
	}
	for _, c := range []struct {
		k    fuel.Kind
		kind error
		text string
	}{{0, units.ErrMissing, "Kind(0)"}, {10, units.ErrRange, "Kind(10)"}} {
		_, err := c.k.MarshalText()
		wantFieldError(t, c.text, err, "kind", c.kind)
		_, err = fuel.PropertiesOf(c.k)
		wantFieldError(t, c.text, err, "kind", c.kind)
		if c.k.Known() || c.k.String() != c.text {
			t.Errorf("%v is %q", c.k, c.k.String())
		}
	}
	if !fuel.NaturalGas.Gas() || fuel.Propane.Gas() {
		t.Error("natural gas alone is measured as a gas")
	}
}

func FuzzParseKind(f *testing.F) {
	f.Add("diesel-2")
	f.Add("natural gas")
	f.Fuzz(func(t *testing.T, s string) {
		k, err := fuel.ParseKind(s)
		if (err == nil) != k.Known() || err == nil && k.String() != s {
			t.Errorf("%q reads as %v, %v", s, k, err)
		}
	})
}
