package tank_test

import (
	"errors"
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/units"
)

// refused accepts an error that says what was wrong, and nothing else.
func refused(t *testing.T, err error) bool {
	t.Helper()
	var f *units.FieldError
	var s *units.SolverError
	if err != nil && !errors.As(err, &f) && !errors.As(err, &s) {
		t.Fatalf("an error of its own kind: %v", err)
	}
	return err != nil
}

func allFinite(t *testing.T, x ...float64) {
	t.Helper()
	for i, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("answer %d is %g", i, v)
		}
	}
}

func FuzzShape(f *testing.F) {
	f.Add(byte(2), 1.0, 0.8, 0.7, 0.0, byte(0), 0.0, 0.5)
	f.Add(byte(4), 1.0, 0.0, 0.0, 0.8, byte(1), 0.2, 0.5)
	f.Add(byte(4), 1e-3, 0.0, 0.0, 100.0, byte(2), 1e-3, 0.999)
	f.Fuzz(func(t *testing.T, form byte, length, width, height, diameter float64, ends byte, dish, fill float64) {
		s := tank.Shape{Form: tank.Form(form), Length: units.Length(length), Width: units.Length(width), Height: units.Length(height),
			Diameter: units.Length(diameter), Ends: tank.End(ends), Dish: units.Length(dish)}
		full, err := s.Capacity()
		if refused(t, err) || !(fill >= 0 && fill <= 1) {
			return
		}
		v := full * units.Volume(fill)
		h, err := s.Level(v)
		if err != nil {
			t.Fatal(err)
		}
		back, err := s.Volume(h)
		if err != nil {
			t.Fatal(err)
		}
		allFinite(t, float64(full), float64(h), float64(back))
		if d := math.Abs(float64(back - v)); d > 1e-11*float64(full) {
			t.Fatalf("%v of %v came back %g off", v, full, d)
		}
	})
}

func FuzzRun(f *testing.F) {
	f.Add(0.6, 0.4, 0.8, 0.05, 0.05, 2.0, 1.0, 1e-3, 5e-4, 0.3, 0.1, 0.02, 0.05, 600.0)
	f.Add(0.01, 100.0, 1e-3, 0.0, 5.0, 1e-3, 0.0, 10.0, 0.0, 0.0, 1.0, 0.0, 0.0, 1e5)
	f.Add(1.0, 1.0, 50.0, 0.2, 1e-4, 1e9, 1e4, 1e-9, 10.0, 0.9, 0.9, 0.4, -0.4, 1.0)
	f.Fuzz(func(t *testing.T, a, b, top, floor, bore, k, length, fill, draw, have0, have1, port, tilt, until float64) {
		if !(until <= 1e6) {
			return
		}
		s := &tank.System{Fluid: cold, Kinds: []string{"other"},
			Tanks: []tank.Tank{{Shape: upright(a, top)}, {Shape: upright(b, top), Floor: units.Length(floor), X: 1}},
			Links: []tank.Link{{From: 0, To: 1, FromPort: tank.Point{Height: units.Length(port)}, Opening: tank.Opening{Bore: units.Length(bore), K: k, Length: units.Length(length)}}},
			Fills: []tank.Fill{{Tank: 0, Flow: units.VolumeFlow(fill), Parts: []units.Ratio{0.5}}},
			Draws: []tank.Draw{{Tank: 1, Flow: units.VolumeFlow(draw), Port: tank.Point{Height: units.Length(port)}}}, NoseUp: units.Angle(tilt)}
		start := volumes(have0*a*top, have1*b*top)
		o, err := s.Run(start, units.Duration(until), tank.RunOptions{})
		if refused(t, err) {
			return
		}
		for i, c := range o.End {
			full, _ := s.Tanks[i].Shape.Capacity()
			allFinite(t, float64(c.Volume), float64(c.Parts[0]))
			if float64(c.Volume) < 0 || float64(c.Volume) > float64(full)*(1+1e-9) {
				t.Fatalf("tank %d holds %v of %v", i, c.Volume, full)
			}
		}
		if o.Closure > 1e-9 {
			t.Fatalf("contents and flows differ by %g", float64(o.Closure))
		}
		if sp, err := s.Spread(o.End); !refused(t, err) {
			allFinite(t, float64(sp.Difference), float64(sp.Links[0]))
		}
	})
}

func FuzzSuction(f *testing.F) {
	f.Add(9e4, 290.0, 0.5, 4e-4, 0.03, 1.2, 2.0, 7e3, 0.5, 3, 120.0, byte(1))
	f.Add(1e3, 450.0, -900.0, 10.0, 1e-4, 1e4, 0.0, 1e8, 0.99, 99, 1e4, byte(3))
	f.Fuzz(func(t *testing.T, site, kelvin, level, flow, bore, length, k, strainer, blocked float64, plungers int, speed float64, kind byte) {
		s := tank.Suction{Site: units.AbsolutePressure(site), Water: units.Kelvin(kelvin), Level: units.Length(level), Flow: units.VolumeFlow(flow),
			Line:     []hydraulics.Element{hydraulics.Fitting{Bore: units.Length(bore), K: k}, hydraulics.Hose{Bore: units.Length(bore), Length: units.Length(length)}},
			Strainer: tank.Strainer{Loss: units.Pressure(strainer), Flow: 1e-3, Blocked: units.Ratio(blocked)},
			Pulsation: tank.Pulsation{Plungers: plungers, Speed: units.RotationalSpeed(speed), Line: tank.LineKind(kind), Bore: units.Length(bore),
				Length: units.Length(length), Moved: units.Length(length), Liquid: 1.4}}
		h, err := s.Head()
		if refused(t, err) {
			return
		}
		allFinite(t, float64(h.Available), float64(h.Line), float64(h.Acceleration), float64(h.Velocity))
		cures, err := s.Cures(tank.CureOptions{Bore: 0.05, Moved: 0.3, Raise: 0.3, Cooler: 10})
		if refused(t, err) {
			return
		}
		for _, c := range cures {
			allFinite(t, float64(c.Gain))
		}
	})
}

func FuzzDrain(f *testing.F) {
	f.Add(1.0, 1.4, 0.1, 0.05, 0.04, 2.0, 0.6, 0.02)
	f.Add(10.0, 100.0, 1e-6, 0.0, 5.0, 1e-3, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, area, from, to, port, bore, k, length, vent float64) {
		d := tank.Drain{Shape: upright(area, 100), From: units.Length(from), To: units.Length(to), Port: units.Length(port),
			Outlet: tank.Opening{Bore: units.Length(bore), K: k, Length: units.Length(length)}, Fluid: cold}
		if vent != 0 {
			d.Vent = tank.Vent{Bore: units.Length(vent), Coefficient: 0.6, Air: 1.2}
		}
		r, err := d.Drain()
		if refused(t, err) {
			return
		}
		allFinite(t, float64(r.Time), float64(r.First), float64(r.Last), float64(r.Vacuum))
		if r.Time < 0 || r.First < r.Last*(1-1e-12) {
			t.Fatalf("%+v", r)
		}
	})
}

func FuzzDeliver(f *testing.F) {
	f.Add(12.0, 8.0, 0.0, 5e-4, 1e-3, 3.0, 0.03, 20.0)
	f.Fuzz(func(t *testing.T, h0, h1, h2, q1, q2, static, bore, length float64) {
		c := tank.PumpCurve{{Head: units.Length(h0)}, {Flow: units.VolumeFlow(q1), Head: units.Length(h1)}, {Flow: units.VolumeFlow(q2), Head: units.Length(h2)}}
		d, err := tank.Deliver([]tank.PumpCurve{c, c}, units.Length(static), []hydraulics.Element{hydraulics.Hose{Bore: units.Length(bore), Length: units.Length(length)}}, cold)
		if refused(t, err) {
			return
		}
		allFinite(t, float64(d.Flow), float64(d.Head))
	})
}
