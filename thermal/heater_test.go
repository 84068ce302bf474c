package thermal

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/ode"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func drawHeater(g *property.G) (Heater, Feed) {
	h := Heater{
		Output:      units.Power(g.LogFloat(20, 400)) * units.Kilowatt,
		Metal:       units.Mass(g.LogFloat(10, 300)),
		MetalHeat:   units.SpecificHeat(g.Float(400, 900)),
		Water:       units.Volume(g.LogFloat(1, 40)) * units.Liter,
		Conductance: units.ThermalConductance(g.LogFloat(300, 8000)),
	}
	if g.Bool() {
		h.Flame, h.Reference = units.Kelvin(g.Float(1500, 2300)), units.Kelvin(g.Float(300, 450))
	}
	if g.Bool() {
		h.Loss, h.Surroundings = units.ThermalConductance(g.Float(0.1, 40)), units.Fahrenheit(g.Float(0, 100))
	}
	return h, Feed{
		Flow: units.VolumeFlow(g.LogFloat(0.5, 12)) * units.GallonPerMinute,
		In:   units.Fahrenheit(g.Float(33, 100)),
		Line: units.AbsolutePressure(g.Float(5, 28)) * units.MegapascalAbsolute,
	}
}

// Heat fired is delivered, lost or stored: integrals of the flows against the change
// of the contents, with fire or without, with flow or without.
func TestHeater_energyCloses(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		h, f := drawHeater(g)
		if g.Int(0, 3) == 0 {
			f.Flow = 0
		}
		from := HeaterState{units.Fahrenheit(g.Float(33, 400)), units.Fahrenheit(g.Float(33, 250))}
		span := units.Duration(g.LogFloat(1e-3, 1e5))
		to, b, err := h.After(f, units.Fahrenheit(160), from, g.Bool(), span)
		if err != nil {
			return err
		}
		if !to.Metal.Valid() || !to.Water.Valid() {
			return fmt.Errorf("state %v", to)
		}
		sum := math.Abs(float64(b.Fired)) + math.Abs(float64(b.Delivered)) + math.Abs(float64(b.Lost)) + math.Abs(float64(b.Stored))
		// Contents and flows count from absolute zero, so their roundings do too.
		sum += 1e-3 * (float64(h.Metal)*float64(h.MetalHeat) + 4186e3*float64(h.Water)) * 300
		if d := float64(b.Fired - b.Delivered - b.Lost - b.Stored); math.Abs(d) > 1e-9*sum {
			return fmt.Errorf("open by %g of %g J: %+v", d, sum, b)
		}
		return nil
	})
}

// Going on from where a span ended is the same as one longer span.
func TestHeater_spansJoin(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		h, f := drawHeater(g)
		hot, fire := units.Fahrenheit(150), g.Bool()
		from := HeaterState{units.Fahrenheit(g.Float(33, 300)), units.Fahrenheit(g.Float(33, 200))}
		t1, t2 := units.Duration(g.LogFloat(0.1, 1e3)), units.Duration(g.LogFloat(0.1, 1e3))
		mid, b1, err1 := h.After(f, hot, from, fire, t1)
		if err1 == nil && (mid.Water.Celsius() < 0 || mid.Metal.Fahrenheit() < -70) {
			return property.ErrDiscard // cooled to ice, which the model does not know
		}
		end, b2, err2 := h.After(f, hot, mid, fire, t2)
		once, b, err3 := h.After(f, hot, from, fire, t1+t2)
		if err := all(err1, err2, err3); err != nil {
			return err
		}
		if math.Abs(float64(end.Metal.Sub(once.Metal))) > 1e-8 || math.Abs(float64(end.Water.Sub(once.Water))) > 1e-8 {
			return fmt.Errorf("%v and %v", end, once)
		}
		if d := float64(b1.Fired + b2.Fired - b.Fired); math.Abs(d) > 1e-9*(math.Abs(float64(b.Fired))+1e4) {
			return fmt.Errorf("heat fired %v + %v, once %v", b1.Fired, b2.Fired, b.Fired)
		}
		return nil
	})
}

// The closed form against the general integrator.
func TestHeater_integrator(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		h, f := drawHeater(g)
		n, err := h.network(f, units.Fahrenheit(160), true)
		if err != nil {
			return err
		}
		m := n.solve()
		y0 := pair{f.In.Kelvin(), f.In.Kelvin()}
		span := g.LogFloat(1, 600)
		y := []float64{y0.s, y0.w}
		var s ode.Solver
		if _, err := s.Integrate(func(_ float64, y, d []float64) {
			d[0] = (n.q + n.G*(n.Tg-y[0]) - n.K*(y[0]-y[1]) - n.L*(y[0]-n.Ta)) / n.Cs
			d[1] = (n.K*(y[0]-y[1]) - n.W*(y[1]-n.Ti)) / n.Cw
		}, 0, span, y, ode.Options{Relative: 1e-11, Absolute: []float64{1e-8, 1e-8}}); err != nil {
			return err
		}
		z := m.at(y0, span)
		if math.Abs(z.s-y[0]) > 1e-6*(1+z.s-y0.s) || math.Abs(z.w-y[1]) > 1e-6*(1+z.w-y0.w) {
			return fmt.Errorf("closed form %v, integrated %v", z, y)
		}
		return nil
	})
}

func TestHeater_cycle(t *testing.T) {
	seen := map[Regime]int{}
	property.Check(t, func(g *property.G) error {
		h, f := drawHeater(g)
		c := Thermostat{
			Setting:      units.Fahrenheit(g.Float(90, 210)),
			Differential: units.TemperatureDelta(g.Float(1, 12)),
			StopDelay:    units.Duration(g.Float(0, 3)),
			FireDelay:    units.Duration(g.Float(0, 20)),
		}
		k, err := h.Cycle(f, c)
		if err != nil {
			return err
		}
		seen[k.Regime]++
		b := k.Balance
		sum := math.Abs(float64(b.Fired)) + math.Abs(float64(b.Delivered)) + math.Abs(float64(b.Lost))
		if d := float64(b.Fired - b.Delivered - b.Lost - b.Stored); math.Abs(d) > 1e-9*sum+1e-3 {
			return fmt.Errorf("open by %g of %g J", d, sum)
		}
		if k.Lowest.Kelvin() > k.Mean.Kelvin()+1e-9 || k.Mean.Kelvin() > k.Highest.Kelvin()+1e-9 {
			return fmt.Errorf("lowest %v, mean %v, highest %v", k.Lowest, k.Mean, k.Highest)
		}
		set := c.Setting.Kelvin()
		switch k.Regime {
		case Continuous:
			if k.Duty != 1 || k.Highest.Kelvin() > set+1e-9 {
				return fmt.Errorf("%+v", k)
			}
		case Idle:
			if k.Duty != 0 || k.Lowest.Kelvin() < set-float64(c.Differential)-1e-9 {
				return fmt.Errorf("%+v", k)
			}
		case Cycling:
			if k.Duty <= 0 || k.Duty >= 1 || k.Highest.Kelvin() < set-1e-9 || k.Lowest.Kelvin() > set-float64(c.Differential)+1e-9 {
				return fmt.Errorf("%+v", k)
			}
			// A cycle repeats, so it stores nothing.
			if math.Abs(float64(b.Stored)) > 1e-6*float64(b.Fired)+1 {
				return fmt.Errorf("stores %v of %v", b.Stored, b.Fired)
			}
			// A later cut never lowers the peak.
			c.StopDelay += 1
			later, err := h.Cycle(f, c)
			if err != nil {
				return err
			}
			if later.Overshoot < k.Overshoot {
				return fmt.Errorf("overshoot %v, with a later cut %v", k.Overshoot, later.Overshoot)
			}
		}
		return nil
	})
	for _, r := range []Regime{Continuous, Cycling, Idle} {
		if seen[r] == 0 && seen[Continuous]+seen[Cycling]+seen[Idle] >= 200 {
			t.Errorf("no case was %v", r)
		}
	}
}

// Without loss and delays in either direction the duty is the heat needed over the
// output: a thermostat neither makes nor destroys heat.
func TestHeater_dutyIsNeedOverOutput(t *testing.T) {
	h := Heater{Output: 100 * units.Kilowatt, Metal: 60, MetalHeat: 490, Water: 7 * units.Liter, Conductance: 2500}
	f := Feed{Flow: 3 * units.GallonPerMinute, In: units.Fahrenheit(45), Line: at27}
	c := Thermostat{Setting: units.Fahrenheit(166), Differential: 6}
	k := must[Cycle](t)(h.Cycle(f, c))
	need := must[units.Power](t)(HeatRequired(f.Flow, f.In, k.Mean, f.Line))
	if d := float64(k.Duty) - float64(need/h.Output); math.Abs(d) > 1e-3 {
		t.Errorf("duty %v, need over output %v", k.Duty, need/h.Output)
	}
	one := must[GunHeat](t)(HeatAtFlow(f.Flow, f.In, h.Output, k.Mean, f.Line))
	if d := float64(k.Duty - one.Duty); math.Abs(d) > 1e-3 {
		t.Errorf("duty %v in time, %v by shares", k.Duty, one.Duty)
	}
}

func TestHeater_warmUp(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		h, f := drawHeater(g)
		target := units.Fahrenheit(g.Float(101, 200))
		w, err := h.WarmUp(f, f.In, target)
		if err != nil {
			return err
		}
		if w.Reached != (w.Settles.Water.Kelvin() > target.Kelvin()) {
			return fmt.Errorf("reached %v, settles at %v for %v", w.Reached, w.Settles.Water, target)
		}
		if !w.Reached {
			return nil
		}
		if math.Abs(float64(w.At.Water.Sub(target))) > 1e-6 {
			return fmt.Errorf("at %v, wanted %v", w.At.Water, target)
		}
		h.Output *= 1.1
		sooner, err := h.WarmUp(f, f.In, target)
		if err != nil {
			return err
		}
		if sooner.Time > w.Time {
			return fmt.Errorf("%v, with more fire %v", w.Time, sooner.Time)
		}
		return nil
	})
}

// Water left standing ends where metal and water share their heat, and the rise goes
// with the metal's excess.
func TestHeater_release(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		h, f := drawHeater(g)
		h.Flame = units.Temperature{}
		from := HeaterState{units.Fahrenheit(g.Float(170, 400)), units.Fahrenheit(g.Float(100, 169))}
		lag := units.Duration(g.Float(0, 5))
		r, err := h.Release(f.Line, from, lag)
		if err != nil {
			return err
		}
		n, err := h.network(Feed{In: from.Water, Line: f.Line}, from.Water, false)
		if err != nil {
			return err
		}
		most := (n.Cs*from.Metal.Kelvin() + n.Cw*from.Water.Kelvin() + float64(h.Output)*float64(lag)) / (n.Cs + n.Cw)
		switch peak := r.Peak.Kelvin(); {
		case h.Loss == 0 && math.Abs(peak-most) > 1e-6:
			return fmt.Errorf("peak %v K, the balance says %v", peak, most)
		case peak > most+1e-6 && h.Surroundings.Kelvin() < from.Water.Kelvin():
			return fmt.Errorf("peak %v K above what the heat allows, %v", peak, most)
		case r.Rise < 0:
			return fmt.Errorf("rise %v", r.Rise)
		}
		if h.Loss != 0 {
			return nil
		}
		// Without loss and lag a hundredth of the rise is left at the time given.
		at, err := h.Release(f.Line, from, 0)
		if err != nil {
			return err
		}
		then, _, err := h.After(Feed{In: from.Water, Line: f.Line}, from.Water, from, false, at.Time)
		if err != nil {
			return err
		}
		if left := float64(at.Peak.Sub(then.Water) / at.Rise); math.Abs(left-0.01) > 1e-6 {
			return fmt.Errorf("%g of the rise is left after %v", left, at.Time)
		}
		return nil
	})
}

func TestHeater_edges(t *testing.T) {
	h := Heater{Metal: 60, MetalHeat: 490, Water: 7 * units.Liter, Conductance: 2500}
	f := Feed{Flow: 3 * units.GallonPerMinute, In: units.Celsius(0), Line: at27}
	c := Thermostat{Setting: units.Fahrenheit(166), Differential: 6}
	if k := must[Cycle](t)(h.Cycle(f, c)); k.Regime != Continuous || math.Abs(k.Mean.Celsius()) > 1e-6 {
		t.Errorf("no output, water of 0 °C: %+v", k)
	}
	w := must[WarmUp](t)(h.WarmUp(f, f.In, c.Setting))
	if w.Reached || w.Endless || w.Time != 0 {
		t.Errorf("no output: %+v", w)
	}
	h.Output, f.Flow = 100*units.Kilowatt, 0
	w = must[WarmUp](t)(h.WarmUp(f, f.In, c.Setting))
	if !w.Endless || !w.Reached || w.Settles != (HeaterState{}) {
		t.Errorf("no flow: %+v", w)
	}
	if _, err := h.Cycle(f, c); err == nil {
		t.Error("a thermostat without flow has a cycle")
	}
	u := must[HeatUp](t)(h.StandingHeatUp(HeaterState{c.Setting, c.Setting}, units.Celsius(300), 5*units.MegapascalAbsolute))
	if u.Never || !u.Boiled || u.Time <= 0 || u.Time > 300 {
		t.Errorf("burner on without flow: %+v", u)
	}
	cold := must[Condensing](t)(h.Condensing(Feed{Flow: 3 * units.GallonPerMinute, In: units.Celsius(5), Line: at27}, units.Celsius(5), c.Setting, units.Fahrenheit(112)))
	if !cold.Drips || cold.Forever || cold.Time <= 0 || cold.Time > 60 || cold.ColdEndDrips != (cold.ColdEnd.Fahrenheit() < 112) {
		t.Errorf("cold start: %+v", cold)
	}
}

func TestFaultTable(t *testing.T) {
	h := Heater{Output: 120 * units.Kilowatt, Metal: 60, MetalHeat: 490, Water: 7 * units.Liter, Conductance: 2500}
	full, part := 6.8*units.GallonPerMinute, 3.74*units.GallonPerMinute
	c := Controls{
		Thermostat: Thermostat{Setting: units.Fahrenheit(166), Differential: 6, StopDelay: 1, FireDelay: 10},
		HighLimit:  units.Fahrenheit(200), HighLimitDelay: 2, FlowSwitchDelay: 2,
	}
	limits := []Limit{{"hose", units.Fahrenheit(250)}, {"heater", units.Fahrenheit(200)}}
	rows := must[[]FaultResult](t)(FaultTable(h, units.Fahrenheit(45), at27, c, Faults(full, part), limits))
	want := []struct {
		guard     Guard
		unbounded bool
		passed    [2]bool
	}{
		{ThermostatGuard, false, [2]bool{false, false}},
		{WeakFire, false, [2]bool{false, false}},
		{HighLimitGuard, false, [2]bool{false, true}},
		{ThermostatGuard, false, [2]bool{false, false}},
		{ThermostatGuard, false, [2]bool{false, true}},
		{HighLimitGuard, false, [2]bool{false, true}},
		{NoGuard, false, [2]bool{true, true}},
		{NoGuard, true, [2]bool{true, true}},
	}
	for i, r := range rows {
		w := want[i]
		if r.Guard != w.guard || r.Unbounded != w.unbounded || r.Highest.Given() == w.unbounded {
			t.Errorf("%s: %v, unbounded %v, highest %v", r.Fault.Name, r.Guard, r.Unbounded, r.Highest)
		}
		for j, l := range r.Limits {
			if l.Passed != w.passed[j] || !r.Unbounded && (l.Margin < 0) != l.Passed {
				t.Errorf("%s: limit %s: %+v at %v", r.Fault.Name, l.Limit.Name, l, r.Highest.Fahrenheit())
			}
		}
	}
	// More that fails never makes the water colder.
	order := [][2]int{{0, 2}, {2, 6}, {4, 5}}
	for _, o := range order {
		if rows[o[0]].Highest.Kelvin() > rows[o[1]].Highest.Kelvin() {
			t.Errorf("%s is hotter than %s", rows[o[0]].Fault.Name, rows[o[1]].Fault.Name)
		}
	}
}

func FuzzCycle(f *testing.F) {
	f.Add(1e5, 30000.0, 7e-3, 2500.0, 5.0, 2e-4, 280.0, 347.0, 5.0, 1.0, 10.0)
	f.Add(1e3, 300.0, 7e-3, 2500.0, 0.0, 1e-4, 290.0, 300.0, 0.1, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, output, metal, water, K, loss, flow, in, set, diff, stop, fire float64) {
		h := Heater{
			Output: units.Power(output), Metal: units.Mass(metal / 490), MetalHeat: 490, Water: units.Volume(water),
			Conductance: units.ThermalConductance(K), Loss: units.ThermalConductance(loss), Surroundings: units.Celsius(10),
		}
		k, err := h.Cycle(Feed{Flow: units.VolumeFlow(flow), In: units.Kelvin(in), Line: at27},
			Thermostat{Setting: units.Kelvin(set), Differential: units.TemperatureDelta(diff), StopDelay: units.Duration(stop), FireDelay: units.Duration(fire)})
		if err != nil {
			return
		}
		if !(k.Duty >= 0 && k.Duty <= 1) || !finite(k.Highest.Kelvin()) || !finite(float64(k.Frequency)) || !finite(float64(k.Balance.Fired)) ||
			k.Lowest.Kelvin() > k.Highest.Kelvin() {
			t.Errorf("%+v", k)
		}
	})
}

func BenchmarkHeaterCycle(b *testing.B) {
	h := Heater{Output: 120 * units.Kilowatt, Metal: 60, MetalHeat: 490, Water: 7 * units.Liter, Conductance: 2500}
	f := Feed{Flow: 3.74 * units.GallonPerMinute, In: units.Fahrenheit(45), Line: at27}
	c := Thermostat{Setting: units.Fahrenheit(166), Differential: 6, StopDelay: 1, FireDelay: 10}
	for b.Loop() {
		if _, err := h.Cycle(f, c); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkHeatAtFlow(b *testing.B) {
	for b.Loop() {
		if _, err := HeatAtFlow(3.74*units.GallonPerMinute, units.Fahrenheit(45), 120*units.Kilowatt, units.Fahrenheit(166), at27); err != nil {
			b.Fatal(err)
		}
	}
}

func FuzzFaultTable(f *testing.F) {
	f.Add(1e5, 30000.0, 7e-3, 2500.0, 5.0, 280.0, 347.0, 366.0, 4e-4, 2e-4, 2e7, 394.0)
	f.Fuzz(func(t *testing.T, output, metal, water, K, loss, in, set, high, full, part, line, limit float64) {
		h := Heater{
			Output: units.Power(output), Metal: units.Mass(metal / 490), MetalHeat: 490, Water: units.Volume(water),
			Conductance: units.ThermalConductance(K), Loss: units.ThermalConductance(loss), Surroundings: units.Celsius(10),
		}
		c := Controls{Thermostat: Thermostat{Setting: units.Kelvin(set), Differential: 5, StopDelay: 1, FireDelay: 5}, HighLimit: units.Kelvin(high), HighLimitDelay: 1, FlowSwitchDelay: 1}
		rows, err := FaultTable(h, units.Kelvin(in), units.AbsolutePressure(line), c, Faults(units.VolumeFlow(full), units.VolumeFlow(part)), []Limit{{"hose", units.Kelvin(limit)}})
		if err != nil {
			return
		}
		for _, r := range rows {
			if r.Unbounded == r.Highest.Given() || !finite(r.Highest.Kelvin()) || r.Guard < NoGuard || r.Guard > WeakFire ||
				!finite(float64(r.Limits[0].After)) || !finite(float64(r.Limits[0].Margin)) {
				t.Errorf("%+v", r)
			}
		}
	})
}

// What a rig asks for in every state allocates nothing.
func TestHeatAtFlow_noAllocation(t *testing.T) {
	b := Bypass{Power: 5 * units.Kilowatt, Volume: 2 * units.Liter, Start: units.Fahrenheit(45), Limit: units.Fahrenheit(145), Pressure: atm}
	oil := HHV(138500 * units.BTUPerGallon)
	n := testing.AllocsPerRun(50, func() {
		g, err0 := HeatAtFlow(3.74*units.GallonPerMinute, units.Fahrenheit(45), 120*units.Kilowatt, units.Fahrenheit(166), at27)
		_, err1 := FiringRate(g.Needed, 0.84, oil)
		_, err2 := CleanFiring(4.75*units.GallonPerHour, atm, units.Fahrenheit(95), 1)
		_, err3 := b.Heat()
		_, err4 := BoilingMargin(units.Fahrenheit(166), atm)
		_, err5 := FlashFraction(units.Fahrenheit(250), at27, atm)
		if err := all(err0, err1, err2, err3, err4, err5); err != nil {
			t.Fatal(err)
		}
	})
	if n != 0 {
		t.Errorf("%v allocations", n)
	}
}
