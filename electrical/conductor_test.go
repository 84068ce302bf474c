package electrical_test

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

var cordGauges = []electrical.Gauge{18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, electrical.Gauge1_0, electrical.Gauge4_0}

func drawCircuit(g *property.G) electrical.Circuit {
	return electrical.Circuit{
		Conductor:   electrical.Conductor{Gauge: cordGauges[g.Int(0, len(cordGauges)-1)], Material: electrical.Material(g.Int(0, 2))},
		Length:      units.Length(g.LogFloat(0.5, 150)),
		Temperature: units.Celsius(g.Float(-30, 90)),
		Supply:      units.Voltage(g.Float(11, 480)),
		ThreePhase:  g.Bool(),
		Reactance:   units.ResistancePerLength(g.Float(0, 3e-4)),
	}
}

// A longer cord never raises the voltage at its own load; neither does a warmer
// or a thinner one.
func TestCircuit_longerNeverHelps(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		c := drawCircuit(g)
		i, pf := units.Current(g.LogFloat(0.5, 60)), units.Ratio(g.Float(0.2, 1))
		a, err := c.Drop(i, pf)
		if err != nil {
			return property.ErrDiscard // the wire cannot pass it
		}
		a2, err := c.StartDrop(i, c.Supply, pf)
		if err != nil {
			return err
		}
		worse := c
		switch g.Int(0, 1) {
		case 0:
			worse.Length *= units.Length(g.Float(1, 1.5))
		case 1:
			worse.Temperature = units.Celsius(c.Temperature.Celsius() + g.Float(0, 50))
		}
		b, err := worse.Drop(i, pf)
		if err == nil && b.AtLoad > a.AtLoad {
			return fmt.Errorf("running voltage rose from %v to %v", a.AtLoad, b.AtLoad)
		}
		b2, err := worse.StartDrop(i, c.Supply, pf)
		if err != nil {
			return err
		}
		if b2.AtLoad > a2.AtLoad*(1+1e-14) { // the quotient rounds
			return fmt.Errorf("starting voltage rose from %v to %v", a2.AtLoad, b2.AtLoad)
		}
		return nil
	})
}

// The closed form against the phasors it comes from.
func TestCircuit_phasors(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		c := drawCircuit(g)
		i, pf := g.LogFloat(0.5, 60), g.Float(0.2, 1)
		d, err := c.Drop(units.Current(i), units.Ratio(pf))
		if err != nil {
			return property.ErrDiscard
		}
		ohm, err := c.Conductor.Resistance(c.Temperature)
		if err != nil {
			return err
		}
		ways, line := 2.0, 1.0
		if c.ThreePhase {
			ways, line = 1, math.Sqrt(3)
		}
		z := complex(float64(ohm), float64(c.Reactance)) * complex(ways*float64(c.Length), 0)
		lag := cmplx.Rect(i, -math.Acos(pf))
		sent := complex(float64(d.AtLoad)/line, 0) + lag*z
		if got, want := cmplx.Abs(sent)*line, float64(c.Supply); math.Abs(got-want) > 1e-10*want {
			return fmt.Errorf("load voltage and drop add to %v V, supply %v V", got, want)
		}
		if got, want := float64(d.Lost+d.AtLoad), float64(c.Supply); math.Abs(got-want) > 1e-12*want {
			return fmt.Errorf("lost and left add to %v V, supply %v V", got, want)
		}
		if d.AtLoad < 2 {
			return property.ErrDiscard // too little for a rated voltage
		}
		// The same load as an impedance, at its own voltage, draws the same current.
		s, err := c.StartDrop(units.Current(i), d.AtLoad, units.Ratio(pf))
		if err != nil {
			return err
		}
		if math.Abs(float64(s.AtLoad-d.AtLoad)) > 1e-9*float64(d.AtLoad) || math.Abs(float64(s.Current)-i) > 1e-9*i {
			return fmt.Errorf("as an impedance %v and %v, as a current %v and %v", s.AtLoad, s.Current, d.AtLoad, i)
		}
		return nil
	})
}

func TestCircuit_errors(t *testing.T) {
	good := electrical.Circuit{Conductor: electrical.Conductor{Gauge: 12}, Length: 30, Temperature: units.Celsius(75), Supply: 120}
	with := func(change func(*electrical.Circuit)) electrical.Circuit {
		c := good
		change(&c)
		return c
	}
	for _, c := range []struct {
		name    string
		circuit electrical.Circuit
		current units.Current
		pf      units.Ratio
		path    string
		kind    error
	}{
		{"no gauge", with(func(c *electrical.Circuit) { c.Conductor.Gauge = 0 }), 10, 1, "conductor.gauge", units.ErrMissing},
		{"odd gauge", with(func(c *electrical.Circuit) { c.Conductor.Gauge = 13 }), 10, 1, "conductor.gauge", units.ErrRange},
		{"solid 4", with(func(c *electrical.Circuit) { c.Conductor = electrical.Conductor{Gauge: 4, Solid: true} }), 10, 1, "conductor.gauge", units.ErrRange},
		{"material", with(func(c *electrical.Circuit) { c.Conductor.Material = 5 }), 10, 1, "conductor.material", units.ErrRange},
		{"no temperature", with(func(c *electrical.Circuit) { c.Temperature = units.Temperature{} }), 10, 1, "temperature", units.ErrMissing},
		{"hot", with(func(c *electrical.Circuit) { c.Temperature = units.Celsius(900) }), 10, 1, "temperature", units.ErrRange},
		{"no supply", with(func(c *electrical.Circuit) { c.Supply = 0 }), 10, 1, "supply", units.ErrMissing},
		{"negative length", with(func(c *electrical.Circuit) { c.Length = -1 }), 10, 1, "length", units.ErrRange},
		{"negative reactance", with(func(c *electrical.Circuit) { c.Reactance = -1 }), 10, 1, "reactance", units.ErrRange},
		{"no number", good, units.Current(math.NaN()), 1, "current", units.ErrRange},
		{"too much", good, 5000, 1, "current", units.ErrRange},
		{"no power factor", good, 10, 0, "powerFactor", units.ErrMissing},
		{"power factor", good, 10, 1.1, "powerFactor", units.ErrRange},
	} {
		_, err := c.circuit.Drop(c.current, c.pf)
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path || !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v, want %v at %s", c.name, err, c.kind, c.path)
		}
	}
}

func TestParseGauge_roundTrip(t *testing.T) {
	for g := electrical.Gauge4_0; g <= 36; g++ {
		if g == 0 {
			continue
		}
		if got, err := electrical.ParseGauge(g.String()); err != nil || got != g {
			t.Errorf("%v reads as %v, %v", g, got, err)
		}
	}
	for _, s := range []string{"", "0", "0/0", "5/0", "37", "12 awg", "-1", "+4", "012", "1/00", "99999999999", "12 AWG AWG"} {
		if g, err := electrical.ParseGauge(s); err == nil {
			t.Errorf("%q reads as %v", s, g)
		}
	}
}

func FuzzParseGauge(f *testing.F) {
	f.Add("12 AWG")
	f.Add("4/0")
	f.Fuzz(func(t *testing.T, s string) {
		g, err := electrical.ParseGauge(s)
		if err != nil {
			return
		}
		if back, err := electrical.ParseGauge(g.String()); err != nil || back != g {
			t.Errorf("%q reads as %v, which reads as %v, %v", s, g, back, err)
		}
		if _, err := g.Diameter(); err != nil {
			t.Errorf("%q reads as %v, which has no diameter: %v", s, g, err)
		}
	})
}

func TestChooseCord_thinnestThatPasses(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		run := g.LogFloat(1, 30)
		need := electrical.CordNeed{
			Supply: 120, Length: units.Length(g.LogFloat(3, 60)), Temperature: units.Celsius(g.Float(20, 75)),
			Carrying: g.Int(2, 3), Current: units.Current(run), PowerFactor: units.Ratio(g.Float(0.5, 1)),
			StartCurrent: units.Current(run * g.Float(1, 6)), StartPowerFactor: units.Ratio(g.Float(0.3, 1)),
			Continuous: 0.8, RunDrop: units.Ratio(g.Float(0.01, 0.1)), StartDrop: units.Ratio(g.Float(0.05, 0.3)),
		}
		best, ok, all, err := electrical.ChooseCord(need)
		if err != nil {
			return err
		}
		for i, c := range all {
			if i > 0 && c.Run.Share > all[i-1].Run.Share {
				return fmt.Errorf("%v drops more than %v", c.Gauge, all[i-1].Gauge)
			}
			if c.Passes() {
				if !ok || best.Gauge != c.Gauge {
					return fmt.Errorf("%v passes first, chosen %v", c.Gauge, best.Gauge)
				}
				break
			}
		}
		if float64(best.Breaker)*0.8*(1+1e-9) < run && ok {
			return fmt.Errorf("breaker %v for %v A", best.Breaker, run)
		}
		// A longer cord is never thinner.
		need.Length *= 1.3
		longer, okLonger, _, err := electrical.ChooseCord(need)
		if err != nil {
			return err
		}
		if okLonger && (!ok || longer.Gauge > best.Gauge) {
			return fmt.Errorf("%v for a cord, %v for a longer one", best.Gauge, longer.Gauge)
		}
		return nil
	})
}

func TestChooseCord_errors(t *testing.T) {
	good := electrical.CordNeed{Supply: 120, Length: 15, Temperature: units.Celsius(50), Carrying: 2, Current: 16, PowerFactor: 1, Continuous: 0.8, RunDrop: 0.05}
	with := func(change func(*electrical.CordNeed)) electrical.CordNeed {
		n := good
		change(&n)
		return n
	}
	for _, c := range []struct {
		name string
		need electrical.CordNeed
		path string
		kind error
	}{
		{"nothing", electrical.CordNeed{}, "supply", units.ErrMissing},
		{"carrying", with(func(n *electrical.CordNeed) { n.Carrying = 4 }), "carrying", units.ErrRange},
		{"start below running", with(func(n *electrical.CordNeed) { n.StartCurrent, n.StartPowerFactor, n.StartDrop = 10, 0.7, 0.1 }), "startCurrent", units.ErrConflict},
		{"no start power factor", with(func(n *electrical.CordNeed) { n.StartCurrent, n.StartDrop = 40, 0.1 }), "startPowerFactor", units.ErrMissing},
		{"small breaker", with(func(n *electrical.CordNeed) { n.Breaker = 15 }), "breaker", units.ErrConflict},
		{"no breaker as large", with(func(n *electrical.CordNeed) { n.Current = 390 }), "current", units.ErrRange},
		{"no share", with(func(n *electrical.CordNeed) { n.Continuous = 0 }), "continuous", units.ErrMissing},
		{"no limit", with(func(n *electrical.CordNeed) { n.RunDrop = 0 }), "runDrop", units.ErrMissing},
	} {
		_, _, _, err := electrical.ChooseCord(c.need)
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path || !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v, want %v at %s", c.name, err, c.kind, c.path)
		}
	}
	if _, _, _, err := electrical.ChooseCord(good); err != nil {
		t.Error(err)
	}
}

func TestOutlets(t *testing.T) {
	for _, o := range electrical.Outlets() {
		got, err := electrical.OutletNamed(o.Name)
		if err != nil || got != o {
			t.Errorf("%s: %+v, %v", o.Name, got, err)
		}
	}
	for _, name := range []string{"", "5-15P"} {
		if _, err := electrical.OutletNamed(name); err == nil {
			t.Errorf("%q is an outlet", name)
		}
	}
}

func FuzzCircuit(f *testing.F) {
	f.Add(12, 30.0, 75.0, 120.0, 15.0, 0.9, 0.0)
	f.Add(-4, 1e308, 20.0, 5e-324, math.Inf(1), math.NaN(), -1.0)
	f.Fuzz(func(t *testing.T, awg int, length, celsius, volts, amps, pf, x float64) {
		c := electrical.Circuit{
			Conductor: electrical.Conductor{Gauge: electrical.Gauge(awg)}, Length: units.Length(length),
			Temperature: units.Celsius(celsius), Supply: units.Voltage(volts), Reactance: units.ResistancePerLength(x),
		}
		for _, drop := range []func() (electrical.Drop, error){
			func() (electrical.Drop, error) { return c.Drop(units.Current(amps), units.Ratio(pf)) },
			func() (electrical.Drop, error) {
				return c.StartDrop(units.Current(amps), units.Voltage(volts), units.Ratio(pf))
			},
		} {
			d, err := drop()
			if err != nil {
				continue
			}
			for _, y := range []float64{float64(d.Resistance), float64(d.Current), float64(d.AtLoad), float64(d.Heat)} {
				if !(y >= 0 && y < 1e18) {
					t.Fatalf("%+v from %+v, %g A", d, c, amps)
				}
			}
			if !(d.AtLoad <= c.Supply*(1+1e-12)) || math.Abs(float64(d.Lost+d.AtLoad-c.Supply)) > 1e-9*volts {
				t.Fatalf("%+v from %+v, %g A", d, c, amps)
			}
		}
	})
}

func TestCircuit_allocations(t *testing.T) {
	c := electrical.Circuit{Conductor: electrical.Conductor{Gauge: 12}, Length: 30, Temperature: units.Celsius(50), Supply: 120}
	if n := testing.AllocsPerRun(100, func() {
		if _, err := c.Drop(15, 0.9); err != nil {
			t.Fatal(err)
		}
		if _, err := c.StartDrop(60, 120, 0.6); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func BenchmarkCircuit_Drop(b *testing.B) {
	c := electrical.Circuit{Conductor: electrical.Conductor{Gauge: 12}, Length: 30, Temperature: units.Celsius(50), Supply: 120}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Drop(15, 0.9); err != nil {
			b.Fatal(err)
		}
	}
}
