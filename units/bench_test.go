package units_test

import (
	"testing"

	"example.com/washrig/units"
)

// typical texts and quantities of a spec, across the paths that reading and
// writing take: exact factors, powers of ten, fractions, shifted scales.
var typical = []struct {
	kind units.Kind
	text string
}{
	{units.KindPressure, "3500 psi"},
	{units.KindPressure, "241.3 bar"},
	{units.KindVolumeFlow, "5.5 gpm"},
	{units.KindLength, "1-1/2 in"},
	{units.KindLength, "50 ft"},
	{units.KindTemperature, "180 °F"},
	{units.KindPower, "16 hp"},
	{units.KindRatio, "88 %"},
	{units.KindHeatTransferCoefficient, "14.3 W/m2-K"},
	{units.KindPosition, "-12 in"},
}

func quantities(tb testing.TB) []units.Quantity {
	var out []units.Quantity
	for _, c := range typical {
		q, err := units.ParseQuantity(c.kind, c.text)
		if err != nil {
			tb.Fatal(err)
		}
		out = append(out, q)
	}
	return out
}

// sink keeps the compiler from leaving a string on the stack.
var sink string

// Reading allocates nothing, writing into a buffer nothing, printing only the
// string it returns.
func TestAllocations(t *testing.T) {
	list := quantities(t)
	buf := make([]byte, 0, 128)
	data := []byte("3500 psi")
	var p units.Pressure
	for _, c := range []struct {
		what string
		want float64
		f    func()
	}{
		{"ParseQuantity", 0, func() {
			for _, c := range typical {
				if _, err := units.ParseQuantity(c.kind, c.text); err != nil {
					t.Fatal(err)
				}
			}
		}},
		{"UnmarshalText", 0, func() {
			if err := p.UnmarshalText(data); err != nil {
				t.Fatal(err)
			}
		}},
		{"AppendText", 0, func() {
			for _, q := range list {
				if _, err := q.AppendText(buf); err != nil {
					t.Fatal(err)
				}
			}
		}},
		{"Text", 1, func() { sink = p.Text(units.Bar, 1) }},
		{"String", 1, func() { sink = p.String() }},
		{"Quantity.Text", 1, func() { sink = list[0].Text(units.US, 4) }},
	} {
		if got := testing.AllocsPerRun(100, c.f); got != c.want {
			t.Errorf("%s: %v allocations, want %v", c.what, got, c.want)
		}
	}
}

func BenchmarkParse(b *testing.B) {
	for _, c := range typical {
		b.Run(c.kind.String()+"/"+c.text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := units.ParseQuantity(c.kind, c.text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkAppendText(b *testing.B) {
	buf := make([]byte, 0, 128)
	for i, q := range quantities(b) {
		b.Run(q.Kind().String()+"/"+typical[i].text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := q.AppendText(buf); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	// A computed number needs all its digits.
	q := units.Pressure(15743158.123456789).Quantity()
	b.Run("pressure/17 digits", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := q.AppendText(buf); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkText(b *testing.B) {
	p := 3500 * units.PSI
	b.ReportAllocs()
	for b.Loop() {
		if p.Text(units.Bar, 1) == "" {
			b.Fatal("no text")
		}
	}
}

func BenchmarkQuantity_Text(b *testing.B) {
	q := (3500 * units.PSI).Quantity()
	b.ReportAllocs()
	for b.Loop() {
		if q.Text(units.US, 4) == "" {
			b.Fatal("no text")
		}
	}
}

func BenchmarkIn(b *testing.B) {
	p := 3500 * units.PSI
	for b.Loop() {
		if p.In(units.Bar) < 0 {
			b.Fatal("negative")
		}
	}
}
