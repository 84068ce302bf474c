package tank_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/air"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// Level undoes Volume, Volume rises with the level, and Surface is its slope.
func TestShape_levelAndVolume(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomShape(g)
		top, err := s.Top()
		if err != nil {
			return err
		}
		h := float64(top) * g.Float(0.01, 0.99)
		v, err := s.Volume(units.Length(h))
		if err != nil {
			return err
		}
		back, err := s.Level(v)
		if err != nil {
			return err
		}
		if d := math.Abs(float64(back) - h); d > 1e-11*float64(top) {
			return fmt.Errorf("level %g came back %g off", h, d)
		}
		step := 1e-5 * math.Min(h, float64(top)-h)
		lo, _ := s.Volume(units.Length(h - step))
		hi, _ := s.Volume(units.Length(h + step))
		area, err := s.Surface(units.Length(h))
		if err != nil {
			return err
		}
		if slope := float64(hi-lo) / (2 * step); !(slope > 0) || math.Abs(slope-float64(area)) > 1e-6*float64(area) {
			return fmt.Errorf("at %g the volume rises by %g, the surface is %v", h, slope, float64(area))
		}
		full, err := s.Capacity()
		if err != nil {
			return err
		}
		if v, err := s.Volume(top); err != nil || math.Abs(float64(v-full)) > 1e-12*float64(full) {
			return fmt.Errorf("to the lid %v, capacity %v", v, full)
		}
		return nil
	})
}

// Hemispherical ends make a sphere, whichever of the two curved ends says so.
func TestShape_sphere(t *testing.T) {
	for _, e := range []tank.End{tank.Dished, tank.Ellipsoidal} {
		s := tank.Shape{Form: tank.LyingCylinder, Diameter: 1, Length: 1e-3, Ends: e, Dish: 0.5}
		for _, h := range []float64{0.1, 0.5, 0.9, 1} {
			v := must[units.Volume](t)(s.Volume(units.Length(h)))
			phi := math.Acos(1 - 2*h)
			want := math.Pi*h*h*(1.5-h)/3 + 1e-3*0.25*(phi-math.Sin(phi)*math.Cos(phi))
			near(t, e.String()+" ends", float64(v), want, 1e-12)
		}
	}
}

// More head drives more flow, and Head and Flow undo each other.
func TestOpening_headAndFlow(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		o := tank.Opening{Bore: units.Length(g.LogFloat(1e-3, 0.3)), K: g.LogFloat(0.5, 100)}
		if g.Bool() {
			o.Length = units.Length(g.LogFloat(0.01, 100))
			o.Roughness = o.Bore * units.Length(g.Float(0, 0.02))
		}
		h := units.Length(g.LogFloat(1e-9, 10))
		q, err := o.Flow(h, cold)
		if err != nil {
			return err
		}
		back, err := o.Head(q, cold)
		if err != nil {
			return err
		}
		if d := math.Abs(float64(back/h) - 1); d > 1e-12 {
			return fmt.Errorf("head %g came back %g off", float64(h), d)
		}
		more, err := o.Flow(h*units.Length(1+g.Float(1e-6, 1)), cold)
		if err != nil {
			return err
		}
		if !(more > q) {
			return fmt.Errorf("%v at more head, %v at less", more, q)
		}
		return nil
	})
	o := tank.Opening{Bore: 0.05, K: 2, Length: 1}
	if q := must[units.VolumeFlow](t)(o.Flow(0, cold)); q != 0 {
		t.Errorf("%v without head", q)
	}
	if h := must[units.Length](t)(o.Head(0, cold)); h != 0 {
		t.Errorf("%v of head without flow", h)
	}
}

// The creeping term is a hundredth of a velocity head at Re = 4000, as its
// documentation says: 3 μ q/r³ is 12 π/Re velocity heads.
func TestOpening_creeping(t *testing.T) {
	q := units.VolumeFlow(4000 * float64(cold.Viscosity) / float64(cold.Density) * math.Pi / 4 * 0.05)
	a := must[units.Length](t)(tank.Opening{Bore: 0.05, K: 1}.Head(q, cold))
	b := must[units.Length](t)(tank.Opening{Bore: 0.05, K: 2}.Head(q, cold))
	near(t, "creeping flow in velocity heads", float64(a/(b-a))-1, 12*math.Pi/4000, 1e-9)
}

// Draining by the integral over the level is draining by the integral over time.
func TestDrain_againstRun(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomShape(g)
		top, _ := s.Top()
		d := tank.Drain{Shape: s, From: top * units.Length(g.Float(0.5, 1)), Port: top * units.Length(g.Float(0, 0.2)), Fluid: cold,
			Outlet: tank.Opening{Bore: units.Length(g.LogFloat(0.01, 0.08)), K: g.LogFloat(1, 10), Length: units.Length(g.Float(0, 2))}}
		d.To = d.Port + top*units.Length(g.Float(0.01, 0.2))
		r, err := d.Drain()
		if err != nil {
			return err
		}
		v, _ := s.Volume(d.From)
		sys := &tank.System{Fluid: cold, Tanks: []tank.Tank{{Shape: s}}, Outlets: []tank.Outlet{{Port: tank.Point{Height: d.Port}, Opening: d.Outlet}}}
		o, err := sys.Run([]tank.Content{{Volume: v}}, r.Time, tank.RunOptions{Sample: []units.Duration{r.Time}})
		if err != nil {
			return err
		}
		if got := o.Samples[0].Levels[0]; math.Abs(float64(got-d.To)) > 1e-7*float64(top) {
			return fmt.Errorf("after %v the level is %v, want %v", r.Time, got, d.To)
		}
		// A run holds 1e-10 of the capacity in each of its some hundred steps.
		full, _ := s.Capacity()
		if math.Abs(float64(r.Volume-o.Outlets[0].Volume)) > 1e-7*float64(full) {
			return fmt.Errorf("%v drained, %v ran out", r.Volume, o.Outlets[0].Volume)
		}
		return nil
	})
}

// Without viscosity a hole in an upright tank drains as Torricelli says.
func TestDrain_torricelli(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		area, bore, c := units.Area(g.Float(0.1, 2)), units.Length(g.LogFloat(0.01, 0.1)), units.Ratio(g.Float(0.4, 1))
		h1 := units.Length(g.Float(0.5, 2))
		h2 := h1 * units.Length(g.Float(0.05, 0.999))
		want, err := tank.DrainTime(area, bore, c, h1, h2)
		if err != nil {
			return err
		}
		d := tank.Drain{Shape: tank.Shape{Form: tank.Upright, Area: area, Height: 2}, From: h1, To: h2, Outlet: tank.Orifice(bore, c), Fluid: thin}
		got, err := d.Drain()
		if err != nil {
			return err
		}
		if math.Abs(float64(got.Time-want)) > 1e-7*float64(want)+1e-12 {
			return fmt.Errorf("%v, Torricelli %v", got.Time, want)
		}
		// a narrower vent never drains faster
		d.Vent = tank.Vent{Bore: units.Length(g.LogFloat(0.003, 0.05)), Coefficient: 0.6, Air: 1.2}
		wide, err := d.Drain()
		if err != nil {
			return err
		}
		d.Vent.Bore *= units.Length(g.Float(0.5, 1))
		narrow, err := d.Drain()
		if err != nil {
			return err
		}
		if narrow.Time < wide.Time || wide.Time < got.Time {
			return fmt.Errorf("%v, %v behind a vent, %v behind a narrower one", got.Time, wide.Time, narrow.Time)
		}
		return nil
	})
}

// line is a random suction line.
func suction(g *property.G) tank.Suction {
	q := units.VolumeFlow(g.LogFloat(1e-5, 1e-3))
	bore := units.Length(g.Float(0.02, 0.05))
	s := tank.Suction{Site: 90e3, Water: units.Celsius(g.Float(1, 60)), Level: units.Length(g.Float(-1, 2)), Flow: q,
		Line: []hydraulics.Element{
			hydraulics.Fitting{Bore: bore, K: g.Float(0.5, 5)},
			hydraulics.Hose{Bore: bore, Length: units.Length(g.Float(0.3, 5))},
		},
		Strainer: tank.Strainer{Loss: units.Pressure(g.Float(0, 2e4)), Flow: q, Blocked: units.Ratio(g.Float(0, 0.8))},
	}
	if g.Bool() {
		s.Pulsation = tank.Pulsation{Plungers: g.Int(1, 9), Speed: units.RotationalSpeed(g.Float(20, 180)), Line: tank.LineKind(g.Int(1, 3)),
			Bore: bore, Length: units.Length(g.Float(0.7, 5)), Moved: 0.5, Liquid: 1.4}
	}
	return s
}

func available(s tank.Suction) (float64, error) {
	h, err := s.Head()
	if err != nil {
		return 0, err
	}
	return float64(h.Available), nil
}

// Thinner air, warmer water, a lower level, more flow, more dirt and a longer hose
// never help suction.
func TestSuction_neverHelps(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := suction(g)
		low := g.Float(-300, 4000)
		p, err := air.PressureAt(low)
		if err != nil {
			return err
		}
		s.Site = units.AbsolutePressure(p)
		base, err := available(s)
		if err != nil {
			return err
		}
		high, err := air.PressureAt(low + g.Float(1, 500))
		if err != nil {
			return err
		}
		worse := map[string]tank.Suction{}
		c := s
		c.Site = units.AbsolutePressure(high)
		worse["thinner air"] = c
		c = s
		c.Level -= units.Length(g.Float(1e-6, 1))
		worse["a lower level"] = c
		c = s
		c.Flow *= units.VolumeFlow(1 + g.Float(1e-6, 1))
		worse["more flow"] = c
		c = s
		c.Strainer.Blocked += units.Ratio(g.Float(0, 0.1))
		worse["more dirt"] = c
		c = s
		c.Line = append([]hydraulics.Element{hydraulics.Hose{Bore: 0.03, Length: 1}}, s.Line...)
		worse["a longer hose"] = c
		c = s
		c.Vacuum = units.Pressure(g.Float(0, 5e3))
		worse["a vacuum in the tank"] = c
		if s.Pulsation.Given() {
			c = s
			c.Pulsation.Speed *= 1.1
			worse["a faster pump"] = c
		}
		for what, c := range worse {
			x, err := available(c)
			if err != nil {
				return err
			}
			if x > base+1e-12 {
				return fmt.Errorf("%s helps: %g m, %g m before", what, x, base)
			}
		}
		// Warmer water carries less of the air and has more vapour: it helps only by
		// what friction it loses.
		c = s
		c.Line, c.Strainer = nil, tank.Strainer{}
		cold, err := available(c)
		if err != nil {
			return err
		}
		c.Water = s.Water.Add(units.TemperatureDelta(g.Float(0.5, 30)))
		warm, err := available(c)
		if err != nil {
			return err
		}
		if s.Water.Celsius() > 15 && warm >= cold {
			return fmt.Errorf("warmer water helps: %g m, %g m before", warm, cold)
		}
		return nil
	})
}

// The terms of the waterfall are the sum, and each cure gains what it says.
func TestSuction_waterfallAndCures(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := suction(g)
		s.Vacuum = units.Pressure(g.Float(0, 1e3))
		h, err := s.Head()
		if err != nil {
			return err
		}
		sum := h.Atmosphere + h.Vapour + h.Static + h.Vacuum + h.Line + h.Strainer + h.Acceleration
		if math.Abs(float64(sum-h.Available)) > 1e-12 {
			return fmt.Errorf("the terms add up to %v, available %v", sum, h.Available)
		}
		if h.Vapour > 0 || h.Vacuum > 0 || h.Line > 0 || h.Strainer > 0 || h.Acceleration > 0 {
			return fmt.Errorf("a loss helps: %+v", h)
		}
		cures, err := s.Cures(tank.CureOptions{Bore: 0.06, Moved: 0.3, Raise: 0.3, Cooler: 10})
		if err != nil {
			return err
		}
		kinds := map[tank.CureKind]units.Length{}
		for i, c := range cures {
			if !(c.Gain > 0) || (i > 0 && c.Gain > cures[i-1].Gain) {
				return fmt.Errorf("cure %d: %+v", i, cures)
			}
			kinds[c.Kind] = c.Gain
		}
		if d := kinds[tank.RaiseTank] - 0.3; math.Abs(float64(d)) > 1e-12 {
			return fmt.Errorf("0.3 m of level gain %v", kinds[tank.RaiseTank])
		}
		if d := kinds[tank.StrainerBypass] + h.Strainer; math.Abs(float64(d)) > 1e-12 {
			return fmt.Errorf("a strainer of %v taken out gains %v", h.Strainer, kinds[tank.StrainerBypass])
		}
		if s.Vacuum > 1 && kinds[tank.OpenVent] == 0 {
			return errors.New("an open vent gains nothing")
		}
		if s.Pulsation.Line == tank.StiffPipe && float64(kinds[tank.HalfTheLine]) < -float64(h.Acceleration)/2*(1-1e-9) {
			return fmt.Errorf("half a stiff line gains %v of %v", kinds[tank.HalfTheLine], h.Acceleration)
		}
		if s.Pulsation.Line == tank.StiffPipe && kinds[tank.FitStabiliser] == 0 {
			return errors.New("a stabiliser gains nothing on a stiff line")
		}
		return nil
	})
}

// The kinematic constant is the greatest slope of the sum of the plungers' strokes.
func TestPlungerConstant_motion(t *testing.T) {
	for n := 1; n <= 12; n++ {
		flow := func(theta float64) float64 {
			q := 0.0
			for k := range n {
				q += math.Max(0, math.Sin(theta+2*math.Pi*float64(k)/float64(n)))
			}
			return q
		}
		most, mean := 0.0, 0.0
		const steps = 360_00
		for i := range steps {
			// between the corners, where a plunger sets out or stops
			a := 2 * math.Pi * (float64(i) + 0.25) / steps
			b := 2 * math.Pi * (float64(i) + 0.75) / steps
			most = math.Max(most, math.Abs(flow(b)-flow(a))/(b-a))
			mean += flow(a) / steps
		}
		// h = L/g · dV/dt; V = mean · A r ω/(area of the line), ω = 2 π N/60
		near(t, fmt.Sprintf("%d plungers", n), tank.PlungerConstant(n, 0), most/mean*2*math.Pi/60, 1e-3)
	}
	if !math.IsNaN(tank.PlungerConstant(0, 0.2)) || !math.IsNaN(tank.AccelerationConstant(-3)) || !math.IsNaN(tank.PlungerConstant(3, math.NaN())) {
		t.Error("no plungers have a constant")
	}
	if !(tank.AccelerationConstant(4) > tank.AccelerationConstant(3)) {
		t.Error("four plungers pulse less than three")
	}
}

func TestRequiredHead(t *testing.T) {
	r := tank.RequiredHead{{Speed: 800 * units.RPM, Head: 6 * units.Foot}, {Speed: 1200 * units.RPM, Head: 8 * units.Foot}, {Speed: 1450 * units.RPM, Head: 9 * units.Foot}}
	for _, p := range r {
		near(t, "at a point", float64(must[units.Length](t)(r.At(p.Speed))), float64(p.Head), 1e-12)
	}
	if h := must[units.Length](t)(r.At(300 * units.RPM)); h != 6*units.Foot {
		t.Errorf("%v below the first point", h)
	}
	last := units.Length(0)
	for n := 700.0; n <= 1450; n += 10 {
		h := must[units.Length](t)(r.At(units.RotationalSpeed(n) * units.RPM))
		if h < last {
			t.Errorf("the head falls to %v at %g rpm", h, n)
		}
		last = h
	}
	if h := must[units.Length](t)(r[:2].At(1000 * units.RPM)); math.Abs(h.In(units.Foot)-7) > 1e-12 {
		t.Errorf("%v half way between two points", h)
	}
	if _, err := r.At(1500 * units.RPM); !errors.Is(err, units.ErrRange) {
		t.Errorf("beyond the last point: %v", err)
	}
	if _, err := (tank.RequiredHead)(nil).At(1000 * units.RPM); !errors.Is(err, units.ErrMissing) {
		t.Errorf("not given: %v", err)
	}
	if _, err := (tank.RequiredHead{r[1], r[0]}).At(900 * units.RPM); !errors.Is(err, units.ErrConflict) {
		t.Errorf("falling speeds: %v", err)
	}
}

// A longer hose never fills faster, a better main never slower, and the pressures
// add up.
func TestFilling_property(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		ps := units.Pressure(g.Float(2e5, 8e5))
		f := tank.Filling{Fluid: cold, Lift: units.Length(g.Float(-1, 5)), Supply: tank.Supply{Static: ps},
			Line: []hydraulics.Element{
				hydraulics.Hose{Bore: units.Length(g.Float(0.012, 0.05)), Length: units.Length(g.Float(1, 60))},
				hydraulics.CheckValve{Cracking: units.Pressure(g.Float(0, 9e4))},
			}}
		if g.Bool() {
			f.Supply.Residual, f.Supply.Flow = ps*units.Pressure(g.Float(0.2, 0.95)), units.VolumeFlow(g.LogFloat(1e-3, 5e-2))
		}
		base, err := f.Flow()
		if err != nil {
			return err
		}
		sum := base.Lift - base.Main
		for _, e := range base.Elements {
			sum += e
		}
		if math.Abs(float64(sum)) > 1e-6*float64(ps) {
			return fmt.Errorf("pressures do not add up: %v", sum)
		}
		long := f
		long.Line = append(long.Line[:2:2], hydraulics.Hose{Bore: 0.02, Length: 5})
		l, err := long.Flow()
		if err != nil {
			return err
		}
		if l.Flow > base.Flow {
			return fmt.Errorf("%v through more hose, %v through less", l.Flow, base.Flow)
		}
		better := f
		better.Supply.Static += 1e4
		if better.Supply.Flow > 0 {
			better.Supply.Residual += 1e4
		}
		b, err := better.Flow()
		if err != nil {
			return err
		}
		if b.Flow < base.Flow*(1-1e-12) {
			return fmt.Errorf("%v at more pressure, %v at less", b.Flow, base.Flow)
		}
		return nil
	})
	f := tank.Filling{Fluid: cold, Lift: 100, Supply: tank.Supply{Static: 3e5}, Line: []hydraulics.Element{hydraulics.Hose{Bore: 0.02, Length: 10}}}
	if r := must[*tank.FillFlow](t)(f.Flow()); r.Flow != 0 {
		t.Errorf("%v lifted by less than the height", r.Flow)
	}
	f.Lift, f.Line = 0, nil
	if _, err := f.Flow(); !errors.Is(err, units.ErrMissing) {
		t.Errorf("a line without loss: %v", err)
	}
}

// Pumps side by side give more than each alone and less than their sum; a pump too
// weak for the head stays behind its check valve.
func TestDeliver_property(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		curve := func() tank.PumpCurve {
			h, q := g.Float(5, 30), g.LogFloat(1e-4, 3e-3)
			c := tank.PumpCurve{{Head: units.Length(h)}}
			for k := 1; k <= 4; k++ {
				x := float64(k) / 4
				c = append(c, tank.PumpPoint{Flow: units.VolumeFlow(q * x), Head: units.Length(h * (1 - 0.999*x*x))})
			}
			return c
		}
		a, b := curve(), curve()
		line := []hydraulics.Element{hydraulics.Hose{Bore: units.Length(g.Float(0.015, 0.05)), Length: units.Length(g.Float(5, 50))}}
		static := units.Length(g.Float(0.5, 15))
		one := func(p ...tank.PumpCurve) (*tank.Delivery, error) { return tank.Deliver(p, static, line, cold) }
		da, err := one(a)
		if err != nil {
			return property.ErrDiscard // runs off its curve
		}
		db, err := one(b)
		if err != nil {
			return property.ErrDiscard
		}
		both, err := one(a, b)
		if err != nil {
			return property.ErrDiscard
		}
		slack := 1e-9 * float64(da.Flow+db.Flow)
		if float64(both.Flow) < math.Max(float64(da.Flow), float64(db.Flow))-slack || float64(both.Flow) > float64(da.Flow+db.Flow)+slack {
			return fmt.Errorf("%v and %v alone, %v together", da.Flow, db.Flow, both.Flow)
		}
		if d := both.Pumps[0] + both.Pumps[1] - both.Flow; math.Abs(float64(d)) > 1e-15 {
			return fmt.Errorf("the pumps' flows miss their sum by %g", float64(d))
		}
		if both.Flow > 0 {
			for i, c := range []tank.PumpCurve{a, b} {
				if both.Head > c[0].Head && both.Pumps[i] != 0 {
					return fmt.Errorf("pump %d delivers against %v", i, both.Head)
				}
				h, err := c.HeadAt(both.Pumps[i])
				if err != nil {
					return err
				}
				if both.Pumps[i] > 0 && math.Abs(float64(h-both.Head)) > 1e-9*float64(both.Head) {
					return fmt.Errorf("pump %d at %v makes %v, the line has %v", i, both.Pumps[i], h, both.Head)
				}
			}
		}
		return nil
	})
}

// Half the pump's flow makes it start most often.
func TestAccumulator_property(t *testing.T) {
	flat := tank.PumpCurve{{Flow: 0, Head: 1000}, {Flow: 0.999e-3, Head: 900}, {Flow: 1e-3, Head: 0}}
	property.Check(t, func(g *property.G) error {
		in := units.Pressure(g.Float(1e5, 3e5))
		a := tank.Accumulator{Volume: units.Volume(g.LogFloat(0.001, 0.3)), CutIn: in, Precharge: in * units.Pressure(g.Float(0.5, 1)), CutOut: in + units.Pressure(g.Float(5e4, 2e5)), Site: 90e3}
		flow, err := flat.FlowAt(units.Length(float64(a.CutOut) / (999.016 * 9.80665)))
		if err != nil {
			return err
		}
		half, err := a.Cycles(flat, 0, cold, flow/2)
		if err != nil {
			return err
		}
		other, err := a.Cycles(flat, 0, cold, flow*units.VolumeFlow(g.Float(0.02, 0.97)))
		if err != nil {
			return err
		}
		// the curve falls by 0.1 % over the range
		if other.PerHour > half.PerHour*1.003 {
			return fmt.Errorf("%g starts an hour, %g at half the flow", other.PerHour, half.PerHour)
		}
		all, err := a.Cycles(flat, 0, cold, flow*1.2)
		if err != nil {
			return err
		}
		none, err := a.Cycles(flat, 0, cold, 0)
		if err != nil {
			return err
		}
		if !all.Continuous || all.PerHour != 0 || none.PerHour != 0 || none.Continuous {
			return fmt.Errorf("all the flow: %+v; no use: %+v", all, none)
		}
		return nil
	})
}

func TestUsableVolume(t *testing.T) {
	s := tank.UprightOf(240*units.Gallon, 30*units.Inch)
	u := must[tank.Usable](t)(tank.UsableVolume(s, 29*units.Inch, 1*units.Inch, 2*units.Inch))
	near(t, "usable", u.Usable.In(units.Gallon), 26*8, 1e-12)
	near(t, "heel", u.Heel.In(units.Gallon), 24, 1e-12)
	near(t, "full", u.Full.In(units.Gallon), 232, 1e-12)
	// An outlet that needs more water than the tank has gives nothing.
	u = must[tank.Usable](t)(tank.UsableVolume(s, 0, 20*units.Inch, 20*units.Inch))
	if u.Usable != 0 || u.Full != u.Nominal {
		t.Errorf("%+v", u)
	}
}
