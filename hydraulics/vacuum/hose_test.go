package vacuum

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func hoseOf(bore, length, rise float64) tube {
	return tube{d: bore, l: length, area: circle(bore), times: 1, sin: rise / length}
}

// The hose alone against an integrated momentum equation: testdata/reference.py
// with fluids 1.0.22 and SciPy 1.10.1. Ten digits are printed of the pressure
// behind; its distance from the pressure before is held to 1e-7.
func TestHose_scipy(t *testing.T) {
	text, err := os.ReadFile("testdata/hose_reference.csv")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "\n")
	rows, err := csv.NewReader(strings.NewReader(rest)).ReadAll()
	if err != nil || len(rows) < 20 {
		t.Fatal(len(rows), err)
	}
	wet := 0
	for i, r := range rows[1:] {
		v := map[string]float64{}
		for k, name := range rows[0] {
			if v[name], err = strconv.ParseFloat(r[k], 64); err != nil {
				t.Fatal(err)
			}
		}
		g, err := Air{Pressure: units.AbsolutePressure(v["p1"]), Temperature: units.Kelvin(v["T"])}.gas()
		if err != nil {
			t.Fatal(err)
		}
		h := hoseOf(v["bore"], v["length"], v["rise"])
		h.k, h.times = v["roughness"]/v["bore"], v["times"]
		f := flow{g: &g, air: v["air"], liquid: v["water"], vl: 1 / 998.2071, mul: 1.0016e-3, drift: drift(998.2071, g.rho, 0.07274), spread: 1}
		p2, ok := h.pass(&f, v["p1"])
		if got, want := v["p1"]-p2, v["p1"]-v["p2"]; !ok || math.Abs(got-want) > 1e-7*want+1e-4 {
			t.Errorf("row %d: loses %.9g Pa, reference %.9g Pa (%v)", i+1, got, want, ok)
		}
		if v["water"] > 0 {
			wet++
		}
	}
	if wet < 10 {
		t.Errorf("only %d rows with water", wet)
	}
}

func testFlow(t testing.TB) (*gas, flow) {
	t.Helper()
	g, err := StandardAir().gas()
	if err != nil {
		t.Fatal(err)
	}
	return &g, flow{g: &g, vl: 1 / 999.0, mul: 1.1e-3, drift: drift(999, g.rho, 0.0735), spread: 1}
}

// A wet hose becomes the dry one as the water goes to nothing, and the hose full of
// water as the air does.
func TestHose_ends(t *testing.T) {
	g, f := testFlow(t)
	h := hoseOf(0.0508, 15, 1.2)
	f.air = 0.04
	dry, ok := h.pass(&f, g.p)
	if !ok {
		t.Fatal("dry air does not pass")
	}
	f.liquid = 1e-17 // the correlation begins with the cube root of the water's share
	if wet, ok := h.pass(&f, g.p); !ok || math.Abs(wet-dry) > 0.05 {
		t.Errorf("a trace of water moves the pressure behind from %.6f to %.6f Pa (%v)", dry, wet, ok)
	}
	f.air, f.liquid = 0, 0.4
	full, ok := h.pass(&f, g.p)
	if want := g.p - gravity*1.2/f.vl; !ok || full > want {
		t.Errorf("a hose full of moving water ends at %.0f Pa, standing water at %.0f Pa", full, want)
	}
	f.air = 1e-10
	if wet, ok := h.pass(&f, g.p); !ok || math.Abs(wet-full) > 0.5 {
		t.Errorf("a trace of air moves the pressure behind from %.3f to %.3f Pa (%v)", full, wet, ok)
	}
	f.air, f.liquid = 0, 0
	if p, ok := h.pass(&f, g.p); !ok || p != g.p {
		t.Errorf("nothing moves, and %v Pa are left of %v", p, g.p)
	}
}

// What a hose costs rises with its length, its climb and the water it carries, and
// falls with its bore; with no climb it rises with the air.
func TestHose_properties(t *testing.T) {
	g, f := testFlow(t)
	property.Check(t, func(p *property.G) error {
		h := hoseOf(p.LogFloat(0.025, 0.1), p.LogFloat(2, 60), 0)
		h.sin = p.Float(0, math.Min(3/h.l, 1))
		f := f
		f.air, f.liquid = p.LogFloat(1e-4, 0.12), p.LogFloat(1e-4, 0.6)
		f.spread = p.Float(0.7, 1.4)
		base, ok := h.pass(&f, g.p)
		if !ok {
			return property.ErrDiscard
		}
		lower := func(what string, h tube, f flow, strict bool) error {
			q, ok := h.pass(&f, g.p)
			if ok && (q > base+1e-7 || strict && q >= base) {
				return fmt.Errorf("%s: %.9f Pa are left, before %.9f", what, q, base)
			}
			return nil
		}
		longer := h
		longer.l *= p.Float(1.001, 2)
		longer.sin = h.sin * h.l / longer.l // the same climb
		steeper := h
		steeper.sin += p.Float(0.001, 0.2)
		rough := h
		rough.times = p.Float(1.01, 2)
		wetter := f
		wetter.liquid *= p.Float(1.001, 2)
		for _, err := range []error{lower("longer", longer, f, false), lower("steeper", steeper, f, true), lower("rougher", rough, f, true), lower("more water", h, wetter, false)} {
			if err != nil {
				return err
			}
		}
		level := h
		level.sin = 0
		flat, ok := level.pass(&f, g.p)
		more := f
		more.air *= p.Float(1.001, 1.5)
		if q, ok2 := level.pass(&more, g.p); ok && ok2 && q > flat+1e-7 {
			return fmt.Errorf("more air in a level hose: %.9f Pa are left, before %.9f", q, flat)
		}
		wide := level
		wide.d *= 1.2
		wide.area = circle(wide.d)
		if q, ok2 := wide.pass(&f, g.p); ok && (!ok2 || q < flat-1e-7) {
			return fmt.Errorf("wider: %.9f Pa are left, before %.9f", q, flat)
		}
		return nil
	})
}

// Two hoses in a row are one of their length.
func TestHose_halves(t *testing.T) {
	g, f := testFlow(t)
	property.Check(t, func(p *property.G) error {
		h := hoseOf(p.LogFloat(0.025, 0.1), p.LogFloat(2, 60), 0)
		h.sin = p.Float(0, math.Min(3/h.l, 1))
		f := f
		f.air = p.LogFloat(1e-4, 0.12)
		if p.Bool() {
			f.liquid = p.LogFloat(1e-4, 0.6)
		}
		whole, ok := h.pass(&f, g.p)
		half := h
		half.l /= 2
		middle, ok1 := half.pass(&f, g.p)
		if !ok || !ok1 {
			return property.ErrDiscard
		}
		two, ok2 := half.pass(&f, middle)
		if !ok2 || math.Abs(two-whole) > 1e-8*(g.p-whole)+1e-6 {
			return fmt.Errorf("in two halves %.9f Pa are left (%v), in one %.9f", two, ok2, whole)
		}
		return nil
	})
}

// A piece that is no hose conserves its law: the two pressures give back the flow.
func TestPiece_law(t *testing.T) {
	g, f := testFlow(t)
	property.Check(t, func(p *property.G) error {
		c := piece{c1: p.LogFloat(1e2, 1e5), c2: p.LogFloat(1e3, 1e7)}
		f := f
		f.air = p.LogFloat(1e-5, 0.2)
		if p.Bool() {
			f.liquid = p.LogFloat(1e-5, 1)
		}
		q, ok := c.pass(&f, g.p)
		if !ok {
			return property.ErrDiscard
		}
		mean := (g.p + q) / 2
		want := (c.c2*(f.air+f.liquid) + c.c1) * (f.air*g.rt/mean + f.liquid*f.vl)
		if math.Abs(g.p-q-want) > 1e-9*want+1e-8 {
			return fmt.Errorf("loses %.12g Pa, its law gives %.12g", g.p-q, want)
		}
		return nil
	})
}

// Past the choke nothing passes, and close before it the hose still answers.
func TestHose_choke(t *testing.T) {
	g, f := testFlow(t)
	h := hoseOf(0.0508, 3, 0)
	least, most := 0.0, 0.0
	for m := 0.01; m < 2; m *= 1.01 {
		f.air = m
		p2, ok := h.pass(&f, g.p)
		switch {
		case ok && most > 0:
			t.Fatalf("%.3f kg/s pass, %.3f did not", m, most)
		case ok:
			least = m
			if c := math.Sqrt(square(m/h.area) * g.rt); p2 < c*(1-1e-9) {
				t.Fatalf("at %.3f kg/s the outlet is faster than sound", m)
			}
		case most == 0:
			most = m
		}
	}
	if !(least > 0 && most > least) {
		t.Fatalf("choke between %v and %v kg/s", least, most)
	}
}
