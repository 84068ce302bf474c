package electrical_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func TestBattery_peukert(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		b := electrical.Battery{
			Capacity: units.Charge(g.LogFloat(10, 500)) * units.AmpereHour,
			Rate:     units.Duration(g.Float(1, 20)) * units.Hour,
			Exponent: g.Float(1.01, 1.6),
		}
		rated := float64(b.Capacity) / float64(b.Rate)
		i1 := units.Current(rated * g.LogFloat(0.1, 5))
		i2 := units.Current(float64(i1) * g.LogFloat(1.5, 20))
		t1, err := b.Runtime(i1)
		if err != nil {
			return err
		}
		t2, err := b.Runtime(i2)
		if err != nil {
			return err
		}
		k, err := electrical.PeukertExponent(i1, t1, i2, t2)
		if err != nil {
			return err
		}
		if math.Abs(k-b.Exponent) > 1e-9 {
			return fmt.Errorf("exponent %v comes back as %v", b.Exponent, k)
		}
		if !(t2 < t1 && float64(i2)*float64(t2) <= float64(i1)*float64(t1)*(1+1e-12)) {
			return fmt.Errorf("%v for %v, then %v for %v: more charge at more current", i1, t1, i2, t2)
		}
		at, err := b.Runtime(units.Current(rated))
		if err != nil || math.Abs(float64(at-b.Rate)) > 1e-9*float64(b.Rate) {
			return fmt.Errorf("the rated current lasts %v, not %v: %v", at, b.Rate, err)
		}
		return nil
	})
}

// While the load is on the battery loses what it gains while it is off.
func TestSustainedDuty_balances(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		left, load, eta := g.Float(-20, 60), g.Float(1, 80), g.Float(0.5, 1)
		d, err := electrical.SustainedDuty(units.Current(left), units.Current(load), units.Ratio(eta))
		if err != nil {
			return err
		}
		out, in := (load-left)*float64(d), eta*left*(1-float64(d))
		switch {
		case left <= 0 && d != 0, left >= load && d != 1:
			return fmt.Errorf("duty %v", d)
		case left > 0 && left < load && math.Abs(out-in) > 1e-9*load:
			return fmt.Errorf("duty %v: out %v, in %v", float64(d), out, in)
		}
		return nil
	})
}

func TestCold_monotone(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		f := g.Float(-20, 140)
		warmer := min(f+g.Float(0, 40), 140)
		a, err1 := electrical.CapacityShare(units.Fahrenheit(f))
		b, err2 := electrical.CapacityShare(units.Fahrenheit(warmer))
		x, err3 := electrical.CrankingDemand(units.Fahrenheit(f))
		y, err4 := electrical.CrankingDemand(units.Fahrenheit(warmer))
		if err := errors.Join(err1, err2, err3, err4); err != nil {
			return err
		}
		if b < a || y > x || b > 1 || y < 1 {
			return fmt.Errorf("%v °F: %v and %v; %v °F: %v and %v", f, a, x, warmer, b, y)
		}
		return nil
	})
}

func TestDirect_errors(t *testing.T) {
	b := electrical.Battery{Capacity: 100 * units.AmpereHour, Rate: 20 * units.Hour, Exponent: 1.2}
	curve := []electrical.OutputPoint{{Speed: 100, Output: 5}, {Speed: 300, Output: 20}}
	nan := math.NaN()
	for _, c := range []struct {
		name string
		call func() error
		path string
		kind error
	}{
		{"no battery", func() error { _, err := electrical.Battery{}.Runtime(5); return err }, "capacity", units.ErrMissing},
		{"exponent", func() error { x := b; x.Exponent = 0.9; _, err := x.Runtime(5); return err }, "exponent", units.ErrRange},
		{"trickle", func() error { _, err := b.Runtime(0.001); return err }, "current", units.ErrRange},
		{"equal currents", func() error { _, err := electrical.PeukertExponent(5, 3600, 5, 3600); return err }, "time2", units.ErrConflict},
		{"rising time", func() error { _, err := electrical.PeukertExponent(5, 3600, 10, 7200); return err }, "time2", units.ErrConflict},
		{"too cold", func() error { _, err := electrical.CapacityShare(units.Fahrenheit(-40)); return err }, "temperature", units.ErrRange},
		{"no temperature", func() error { _, err := electrical.CrankingDemand(units.Temperature{}); return err }, "temperature", units.ErrMissing},
		{"no charge", func() error { _, err := electrical.Cranking(300, 0, 100, units.Fahrenheit(0)); return err }, "charge", units.ErrMissing},
		{"one point", func() error { _, err := electrical.ChargingOutput(curve[:1], 100); return err }, "points", units.ErrMissing},
		{"order", func() error {
			_, err := electrical.ChargingOutput([]electrical.OutputPoint{curve[1], curve[0]}, 100)
			return err
		}, "points[#2].speed", units.ErrConflict},
		{"outside", func() error { _, err := electrical.ChargingOutput(curve, 301); return err }, "speed", units.ErrRange},
		{"no number", func() error { _, err := electrical.ChargingOutput(curve, units.RotationalSpeed(nan)); return err }, "speed", units.ErrRange},
		{"duty", func() error {
			_, err := electrical.BudgetDirect(20, []electrical.DirectLoad{{Name: "reel", Current: 40, Duty: 2}})
			return err
		}, "loads[reel].duty", units.ErrRange},
		{"name", func() error {
			_, err := electrical.BudgetDirect(20, []electrical.DirectLoad{{Current: 40}})
			return err
		}, "loads[#1].name", units.ErrMissing},
		{"charging", func() error { _, err := electrical.BudgetDirect(units.Current(nan), nil); return err }, "charging", units.ErrRange},
		{"left", func() error { _, err := electrical.SustainedDuty(units.Current(nan), 40, 0.9); return err }, "left", units.ErrRange},
		{"standby", func() error { _, err := electrical.StandingTime(360_000, 0.5, 0); return err }, "standby", units.ErrMissing},
		{"for ever", func() error { _, err := electrical.StandingTime(1e9, 1, 1e-6); return err }, "standby", units.ErrRange},
		{"inverter", func() error { _, err := electrical.InverterInput(100, 0, 0, 12); return err }, "efficiency", units.ErrMissing},
		{"leak", func() error {
			_, _, err := electrical.SumLeakage([]electrical.Leak{{Name: "cord", Current: -1}})
			return err
		}, "leaks[cord].current", units.ErrRange},
		{"cycles", func() error { _, err := electrical.PumpCycles(0, 1, 1); return err }, "volume", units.ErrMissing},
	} {
		var f *units.FieldError
		if err := c.call(); !errors.As(err, &f) || f.Path != c.path || !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v, want %v at %s", c.name, err, c.kind, c.path)
		}
	}
}

func TestPumpCycles_mostAtHalf(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		v, Q := g.LogFloat(1e-4, 1), g.LogFloat(1e-5, 1e-2)
		most, err := electrical.PumpCycles(units.Volume(v), units.VolumeFlow(Q/2), units.VolumeFlow(Q))
		if err != nil {
			return err
		}
		if want := Q / (4 * v); math.Abs(float64(most)-want) > 1e-12*want {
			return fmt.Errorf("at half the flow %v, want Q/4V = %v", float64(most), want)
		}
		q := Q * g.Float(0, 1.2)
		f, err := electrical.PumpCycles(units.Volume(v), units.VolumeFlow(q), units.VolumeFlow(Q))
		if err != nil {
			return err
		}
		if f > most*(1+1e-12) || f < 0 || q >= Q && f != 0 {
			return fmt.Errorf("%v at %v of %v, most %v", f, q, Q, most)
		}
		if q > 0 && q < 0.999*Q { // the two halves of a cycle, filling and drawing
			if period := v/q + v/(Q-q); math.Abs(float64(f)*period-1) > 1e-9 {
				return fmt.Errorf("%v starts a second, period %v s", f, period)
			}
		}
		return nil
	})
}

func FuzzDirect(f *testing.F) {
	f.Add(300.0, 0.8, 120.0, 20.0, 36000.0, 1.2, 5.0)
	f.Add(math.Inf(1), 5e-324, -1.0, -500.0, 1e300, 1.0, math.NaN())
	f.Fuzz(func(t *testing.T, cca, charge, warm, celsius, capacity, k, i float64) {
		c, err := electrical.Cranking(units.Current(cca), units.Ratio(charge), units.Current(warm), units.Celsius(celsius))
		if err == nil && !(c.Available > 0 && c.Needed > 0 && c.Reserve < 1 && c.Reserve > -1e12) {
			t.Errorf("%+v", c)
		}
		r, err := electrical.Battery{Capacity: units.Charge(capacity), Rate: 72_000, Exponent: k}.Runtime(units.Current(i))
		if err == nil && !(r > 0 && r < 1e12) {
			t.Errorf("runtime %v", r)
		}
		d, err := electrical.SustainedDuty(units.Current(i), units.Current(cca), units.Ratio(charge))
		if err == nil && !(d >= 0 && d <= 1) {
			t.Errorf("duty %v", d)
		}
		st, err := electrical.StandingTime(units.Charge(capacity), units.Ratio(charge), units.Current(i))
		if err == nil && !(st > 0 && st < 1e11) {
			t.Errorf("standing %v", st)
		}
		cy, err := electrical.PumpCycles(units.Volume(capacity), units.VolumeFlow(charge), units.VolumeFlow(k))
		if err == nil && !(cy >= 0 && cy < 1e9) {
			t.Errorf("cycles %v", cy)
		}
	})
}
