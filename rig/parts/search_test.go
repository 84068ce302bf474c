package parts_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

const gpm = units.GallonPerMinute

func pumps(t testing.TB) *parts.Catalog {
	p36, p44, p68, p68b := pump("P36", 3.6*gpm), pump("P44", 4.4*gpm), pump("P68", 6.8*gpm), pump("P68B", 6.8*gpm)
	p44.Pump.MaximumPressure = 4000 * units.PSI
	p68.Pump.MaximumPressure = 3500 * units.PSI
	p68.LeadTime = 12 * units.Day
	p36.Cost, _ = parts.ParseMoney("640.00 USD")
	p68.Cost, _ = parts.ParseMoney("890.00 USD")
	p36.PriceDate, p44.PriceDate = day(t, "2026-03-02"), day(t, "2025-12-31")
	heater := parts.Part{Number: "H5", Kind: "heater", Heater: &parts.Heater{Fuel: "oil", MaximumTemperature: units.Fahrenheit(200)}}
	return shelf(t, "", p68b, p68, p44, p36, heater, parts.Part{Number: "R1", Kind: "item"})
}

func TestFind(t *testing.T) {
	c := pumps(t)
	for _, x := range []struct {
		name  string
		kind  parts.Kind
		where []parts.Where
		want  string
	}{
		{"everything", "", nil, "H5 P36 P44 P68 P68B R1"},
		{"a kind", parts.KindPump, nil, "P36 P44 P68 P68B"},
		{"none of a kind", parts.KindTank, nil, ""},
		{"between, ends included", parts.KindPump, []parts.Where{parts.Between("pump.rated_flow", 4.4*gpm, 6.8*gpm)}, "P44 P68 P68B"},
		{"between 6 and 8 gpm", parts.KindPump, []parts.Where{parts.Between("pump.rated_flow", 6*gpm, 8*gpm)}, "P68 P68B"},
		{"the bounds in other units", parts.KindPump, []parts.Where{parts.AtLeast("pump.rated_flow", 20*units.LiterPerMinute)}, "P68 P68B"},
		{"at least", parts.KindPump, []parts.Where{parts.AtLeast("pump.maximum_pressure", 3500*units.PSI)}, "P44 P68"},
		{"at most", parts.KindPump, []parts.Where{parts.AtMost("pump.maximum_pressure", 3500*units.PSI)}, "P68"},
		{"two conditions", parts.KindPump, []parts.Where{parts.AtLeast("pump.rated_flow", 4*gpm), parts.AtMost("lead_time", 20*units.Day)}, "P68"},
		{"without a kind", "", []parts.Where{parts.AtLeast("pump.rated_flow", 6*gpm)}, "P68 P68B"},
		{"a point on a scale", parts.KindHeater, []parts.Where{parts.AtLeast("heater.maximum_temperature", units.Fahrenheit(180))}, "H5"},
		{"a text", parts.KindHeater, []parts.Where{parts.Is("heater.fuel", "oil")}, "H5"},
		{"another text", parts.KindHeater, []parts.Where{parts.Is("heater.fuel", "propane")}, ""},
		{"an amount", "", []parts.Where{parts.Is("cost", "890.00 USD")}, "P68"},
		{"not given", parts.KindPump, []parts.Where{parts.Is("cost", "")}, "P44 P68B"},
	} {
		list, err := c.Find(x.kind, x.where...)
		if got := numbers(list); err != nil || got != x.want {
			t.Errorf("%s: %q, %v; want %q", x.name, got, err, x.want)
		}
	}
}

func TestFind_refuses(t *testing.T) {
	c := pumps(t)
	for name, x := range map[string]struct {
		kind  parts.Kind
		where parts.Where
		path  string
		says  string
	}{
		"unknown kind":         {"pumps", parts.AtMost("mass", units.Pound), "kind", "such as pump"},
		"unknown path":         {"pump", parts.AtMost("pump.flow", gpm), "pump.flow", ""},
		"misspelt path":        {"pump", parts.AtMost("pump.rated_flwo", gpm), "pump.rated_flwo", "rated_flow"},
		"rating of other kind": {"pump", parts.AtMost("hose.bore", units.Inch), "hose.bore", "a rating of the kind pump"},
		"group":                {"pump", parts.AtMost("pump", gpm), "pump", "one of rated_flow"},
		"wrong dimension":      {"pump", parts.AtMost("pump.rated_flow", units.PSI), "pump.rated_flow", "want a flow"},
		"text as quantity":     {"heater", parts.AtMost("heater.fuel", units.PSI), "heater.fuel", "quantity"},
		"bound not given":      {"heater", parts.AtMost("heater.maximum_temperature", units.Temperature{}), "heater.maximum_temperature", "given"},
		"NaN":                  {"pump", parts.AtMost("pump.rated_flow", units.VolumeFlow(math.NaN())), "pump.rated_flow", "finite"},
		"upside down":          {"pump", parts.Between("pump.rated_flow", 8*gpm, 6*gpm), "pump.rated_flow", "lower bound first"},
		"no condition":         {"pump", parts.Where{}, "where", "made by"},
	} {
		list, err := c.Find(x.kind, x.where)
		var fe *units.FieldError
		if list != nil || !errors.As(err, &fe) || fe.Path != x.path || !strings.Contains(err.Error(), x.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := c.Neighbours("pump", "hose.bore", units.Inch); !errors.Is(err, units.ErrConflict) {
		t.Errorf("neighbours of another kind's rating: %v", err)
	}
	if _, err := c.Neighbours("pump", "pump.rated_flow", gpm, parts.Where{}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("neighbours under no condition: %v", err)
	}
	if err := parts.Sort(nil, "pump.flow"); err == nil {
		t.Error("sorted by what is not")
	}
}

func TestSort(t *testing.T) {
	for path, want := range map[string]string{
		"pump.rated_flow":       "P36 P44 P68 P68B H5 R1",
		"pump.maximum_pressure": "P68 P44 H5 P36 P68B R1",
		"cost":                  "P36 P68 H5 P44 P68B R1",
		"price_date":            "P44 P36 H5 P68 P68B R1",
		"kind":                  "H5 R1 P36 P44 P68 P68B",
		"heater.fuel":           "H5 P36 P44 P68 P68B R1",
	} {
		list := pumps(t).Parts("")
		if err := parts.Sort(list, path); err != nil || numbers(list) != want {
			t.Errorf("by %s: %q, %v; want %q", path, numbers(list), err, want)
		}
	}
}

func TestNeighbours(t *testing.T) {
	var list []parts.Part
	for _, n := range []float64{3, 3.5, 4, 4.5, 5, 5.5} { // stocked in half sizes
		list = append(list, parts.Part{Number: fmt.Sprint("N", n), Kind: "nozzle", Nozzle: &parts.Nozzle{Number: units.NozzleNumber(n)}})
	}
	list = append(list, parts.Part{Number: "N4-wide", Kind: "nozzle", Nozzle: &parts.Nozzle{Number: 4, Angle: 40 * units.Degree}},
		parts.Part{Number: "N-unknown", Kind: "nozzle", Nozzle: &parts.Nozzle{}})
	c := shelf(t, "", list...)
	for _, x := range []struct {
		n                float64
		below, at, above string
	}{
		{4.27, "N4 N4-wide", "", "N4.5"}, {4, "N3.5", "N4 N4-wide", "N4.5"}, {3, "", "N3", "N3.5"}, {1, "", "", "N3"}, {9, "N5.5", "", ""},
		{4 * (1 + 1e-15), "N3.5", "N4 N4-wide", "N4.5"},
	} {
		n, err := c.Neighbours(parts.KindNozzle, "nozzle.number", units.NozzleNumber(x.n))
		if err != nil || numbers(n.Below) != x.below || numbers(n.At) != x.at || numbers(n.Above) != x.above {
			t.Errorf("of %v: %s | %s | %s, %v", x.n, numbers(n.Below), numbers(n.At), numbers(n.Above), err)
		}
	}
	n, err := c.Neighbours(parts.KindNozzle, "nozzle.number", units.NozzleNumber(4.27), parts.AtLeast("nozzle.angle", units.Degree))
	if err != nil || numbers(n.Below) != "N4-wide" || n.Above != nil {
		t.Errorf("under a condition: %s, %s, %v", numbers(n.Below), numbers(n.Above), err)
	}
}

// Against a plain loop over exact numbers.
func TestSearch_oracle(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		var list []parts.Part
		flows := map[string]float64{}
		for i := range g.Int(0, 12) {
			n, p := fmt.Sprintf("P%02d", i), 0.1*float64(g.Int(1, 30))
			flows[n] = p
			list = append(list, pump(n, units.VolumeFlow(p)*gpm))
		}
		c := shelf(t, "", list...)
		lo := 0.1 * float64(g.Int(1, 30))
		hi := lo + 0.1*float64(g.Int(0, 10))
		const eps = 1e-9 // of numbers that are tenths
		var between, at, below, above []string
		near := func(better func(a, b float64) bool, in func(f float64) bool) (out []string) {
			best := math.NaN()
			for _, f := range flows {
				if in(f) && (math.IsNaN(best) || better(f, best)) {
					best = f
				}
			}
			for n, f := range flows {
				if math.Abs(f-best) < eps {
					out = append(out, n)
				}
			}
			slices.Sort(out)
			return out
		}
		for n, f := range flows {
			if f > lo-eps && f < hi+eps {
				between = append(between, n)
			}
			if math.Abs(f-lo) < eps {
				at = append(at, n)
			}
		}
		slices.Sort(between)
		slices.Sort(at)
		below = near(func(a, b float64) bool { return a > b }, func(f float64) bool { return f < lo-eps })
		above = near(func(a, b float64) bool { return a < b }, func(f float64) bool { return f > lo+eps })
		found, err := c.Find(parts.KindPump, parts.Between("pump.rated_flow", units.VolumeFlow(lo)*gpm, units.VolumeFlow(hi)*gpm))
		if err != nil || numbers(found) != strings.Join(between, " ") {
			return fmt.Errorf("between %v and %v: %s, %v; want %s", lo, hi, numbers(found), err, between)
		}
		n, err := c.Neighbours(parts.KindPump, "pump.rated_flow", units.VolumeFlow(lo)*gpm)
		if err != nil || numbers(n.Below) != strings.Join(below, " ") || numbers(n.At) != strings.Join(at, " ") || numbers(n.Above) != strings.Join(above, " ") {
			return fmt.Errorf("next to %v: %s | %s | %s, %v; want %s | %s | %s", lo, numbers(n.Below), numbers(n.At), numbers(n.Above), err, below, at, above)
		}
		return nil
	})
}
