package tank_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// randomShape draws a tank of 50 to 2000 litres of any form.
func randomShape(g *property.G) tank.Shape {
	d := units.Length(g.Float(0.4, 1.2))
	switch g.Pick(4) {
	case 0:
		return upright(g.Float(0.1, 1.5), g.Float(0.4, 1.2))
	case 1:
		return tank.Shape{Form: tank.Box, Length: units.Length(g.Float(0.4, 1.5)), Width: d, Height: units.Length(g.Float(0.4, 1))}
	case 2:
		return tank.Shape{Form: tank.UprightCylinder, Diameter: d, Height: units.Length(g.Float(0.4, 1.2))}
	}
	s := tank.Shape{Form: tank.LyingCylinder, Diameter: d, Length: units.Length(g.Float(0.4, 1.5)), Ends: tank.End(g.Pick(3))}
	if s.Ends != tank.Flat {
		s.Dish = d * units.Length(g.Float(0.05, 0.5))
	}
	return s
}

// randomSystem draws one to four tanks and what joins, drains, draws and fills them.
func randomSystem(g *property.G) *tank.System {
	s := &tank.System{Fluid: cold, Kinds: []string{"recovered", "chemical"}}
	n := g.Int(1, 4)
	for range n {
		shape := randomShape(g)
		t := tank.Tank{Shape: shape, Floor: units.Length(g.Float(0, 0.3)), X: units.Length(g.Float(0, 4))}
		if g.Bool() {
			top, _ := shape.Top()
			t.Overflow.Height = top * units.Length(g.Float(0.7, 1))
		}
		s.Tanks = append(s.Tanks, t)
	}
	opening := func() tank.Opening {
		o := tank.Opening{Bore: units.Length(g.LogFloat(0.01, 0.1)), K: g.LogFloat(1, 20)}
		if g.Bool() {
			o.Length = units.Length(g.LogFloat(0.1, 5))
		}
		return o
	}
	point := func(i int) tank.Point {
		top, _ := s.Tanks[i].Shape.Top()
		return tank.Point{Height: top * units.Length(g.Float(0, 0.3))}
	}
	for i := 1; i < n; i++ {
		j := g.Pick(i)
		s.Links = append(s.Links, tank.Link{From: j, To: i, FromPort: point(j), ToPort: point(i), Opening: opening(), Shut: g.Pick(4) == 3, OneWay: g.Pick(5) == 4})
	}
	for range g.Int(0, 2) {
		i := g.Pick(n)
		s.Outlets = append(s.Outlets, tank.Outlet{Tank: i, Port: point(i), Opening: opening(), Shut: g.Pick(4) == 3})
	}
	for range g.Int(0, 2) {
		i := g.Pick(n)
		s.Draws = append(s.Draws, tank.Draw{Tank: i, Port: point(i), Flow: units.VolumeFlow(g.LogFloat(1e-5, 2e-3))})
	}
	for range g.Int(0, 2) {
		i := g.Pick(n)
		f := tank.Fill{Tank: i, Flow: units.VolumeFlow(g.LogFloat(1e-5, 5e-3)), Parts: []units.Ratio{units.Ratio(g.Float(0, 1)), 0}}
		if g.Bool() {
			top, _ := s.Tanks[i].Shape.Top()
			f.Stop = top * units.Length(g.Float(0.4, 0.9))
		}
		s.Fills = append(s.Fills, f)
	}
	if g.Bool() {
		s.NoseUp = units.Angle(g.Float(-0.1, 0.1))
	}
	return s
}

func randomContents(g *property.G, s *tank.System) []tank.Content {
	var out []tank.Content
	for i := range s.Tanks {
		full, _ := s.Tanks[i].Shape.Capacity()
		v := full * units.Volume(g.Float(0, 1))
		a := units.Ratio(g.Float(0, 1))
		out = append(out, tank.Content{Volume: v, Parts: []units.Volume{v * units.Volume(a), v * units.Volume(1-a) / 2}})
	}
	return out
}

// Water, and what is in it, is conserved through any sequence of filling, drawing,
// levelling and dumping: what the tanks gained is what passed in less what passed out.
func TestRun_conserves(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomSystem(g)
		have := randomContents(g, s)
		start := have
		kinds := len(s.Kinds)
		in, out := make([]float64, 1+kinds), make([]float64, 1+kinds)
		add := func(sum []float64, list []tank.Passed) {
			for _, p := range list {
				sum[0] += float64(p.Volume)
				for k, v := range p.Parts {
					sum[1+k] += float64(v)
				}
			}
		}
		for phase := range g.Int(1, 3) {
			// other valves, other flows
			for i := range s.Links {
				s.Links[i].Shut = g.Pick(3) == 0
			}
			for i := range s.Outlets {
				s.Outlets[i].Shut = g.Pick(3) != 0
			}
			o, err := s.Run(have, units.Duration(g.LogFloat(1, 5000)), tank.RunOptions{})
			if err != nil {
				return fmt.Errorf("phase %d: %w", phase, err)
			}
			if o.Closure > 1e-9 {
				return fmt.Errorf("phase %d: contents and flows differ by %g", phase, float64(o.Closure))
			}
			add(in, o.Fills)
			for _, l := range [][]tank.Passed{o.Outlets, o.Draws, o.Spills} {
				add(out, l)
			}
			have = o.End
		}
		for k := range in {
			a, b, scale := in[k], out[k], in[0]+out[0]
			for i := range start {
				x, y := float64(start[i].Volume), float64(have[i].Volume)
				scale += x + y
				if k > 0 {
					x, y = float64(start[i].Parts[k-1]), float64(have[i].Parts[k-1])
				}
				a += x
				b += y
			}
			if math.Abs(a-b) > 1e-9*scale {
				return fmt.Errorf("kind %d: %.15g in, %.15g out and left", k, a, b)
			}
		}
		for i, c := range have {
			full, _ := s.Tanks[i].Shape.Capacity()
			if float64(c.Volume) > float64(full)*(1+1e-9) {
				return fmt.Errorf("tank %d holds %v of %v", i, c.Volume, full)
			}
			for k, v := range c.Parts {
				if float64(v) > float64(c.Volume)+1e-8*float64(full) {
					return fmt.Errorf("tank %d: %v of kind %d in %v", i, v, k, c.Volume)
				}
			}
		}
		return nil
	})
}

// Left alone, tanks joined by open links at their floors come to stand level.
func TestRun_restsLevel(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := &tank.System{Fluid: cold}
		for range g.Int(2, 4) {
			s.Tanks = append(s.Tanks, tank.Tank{Shape: randomShape(g), X: units.Length(g.Float(0, 0.5))})
		}
		for i := 1; i < len(s.Tanks); i++ {
			s.Links = append(s.Links, tank.Link{From: g.Pick(i), To: i, Opening: tank.Opening{Bore: units.Length(g.LogFloat(0.01, 0.1)), K: g.LogFloat(0.5, 10), Length: units.Length(g.Float(0, 2))}})
		}
		start := make([]tank.Content, len(s.Tanks))
		for i := range start {
			full, _ := s.Tanks[i].Shape.Capacity()
			start[i].Volume = full * units.Volume(g.Float(0.05, 0.6))
		}
		o, err := s.Run(start, 2*units.Day, tank.RunOptions{})
		if err != nil {
			return err
		}
		h, err := s.Heights(o.End)
		if err != nil {
			return err
		}
		for i := range h {
			if d := math.Abs(float64(h[i] - h[0])); d > 1e-6 && len(o.Events) == 0 {
				return fmt.Errorf("tank %d stands %g m from the first", i, d)
			}
		}
		return nil
	})
}

// A wider crossover never strands more.
func TestStranded_widerCrossover(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := &tank.System{Fluid: cold,
			Tanks: []tank.Tank{{Shape: upright(g.Float(0.2, 1), 0.8)}, {Shape: upright(g.Float(0.2, 1), 0.8), Floor: units.Length(g.Float(-0.05, 0.1))}},
			Draws: []tank.Draw{{Tank: 0, Port: tank.Point{Height: units.Length(g.Float(0.01, 0.1))}, Flow: units.VolumeFlow(g.LogFloat(1e-4, 2e-3))}},
		}
		start := []tank.Content{{Volume: column(s.Tanks[0], 0.7)}, {Volume: column(s.Tanks[1], 0.7)}}
		s.Links = []tank.Link{{From: 0, To: 1, Opening: tank.Opening{Bore: units.Length(g.LogFloat(0.01, 0.05)), K: g.LogFloat(1, 5), Length: 1}}}
		narrow, err := s.Stranded(start, 0)
		if err != nil {
			return err
		}
		s.Links[0].Bore *= units.Length(1 + g.Float(0.02, 1))
		wide, err := s.Stranded(start, 0)
		if err != nil {
			return err
		}
		if float64(wide.Total) > float64(narrow.Total)+1e-9 {
			return fmt.Errorf("%v stranded behind the wider crossover, %v behind the narrow one", wide.Total, narrow.Total)
		}
		return nil
	})
}

// Long after the start, tanks that are drawn or filled stand as Spread says.
func TestSpread_isWhereARunGoes(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		n := g.Int(2, 4)
		s := &tank.System{Fluid: cold}
		for range n {
			s.Tanks = append(s.Tanks, tank.Tank{Shape: upright(g.Float(0.2, 1), 100)})
		}
		for i := 1; i < n; i++ {
			s.Links = append(s.Links, tank.Link{From: g.Pick(i), To: i, Opening: tank.Opening{Bore: units.Length(g.LogFloat(0.045, 0.08)), K: g.LogFloat(1, 5), Length: units.Length(g.Float(0, 2))}})
		}
		if n > 2 && g.Bool() { // a ring
			s.Links = append(s.Links, tank.Link{From: n - 1, To: 0, Opening: tank.Opening{Bore: 0.05, K: 2}})
		}
		s.Draws = []tank.Draw{{Tank: g.Pick(n), Flow: units.VolumeFlow(g.LogFloat(1e-4, 3e-3))}}
		start := make([]tank.Content, n)
		for i := range start {
			start[i].Volume = column(s.Tanks[i], 50)
		}
		want, err := s.Spread(start)
		if err != nil {
			return err
		}
		if !want.Holds {
			return fmt.Errorf("levels 50 m up do not hold")
		}
		area := 0.0
		for i := range s.Tanks {
			area += float64(s.Tanks[i].Shape.Area)
		}
		// until the levels have sunk by 30 m
		o, err := s.Run(start, units.Duration(30*area/float64(s.Draws[0].Flow)), tank.RunOptions{})
		if err != nil {
			return err
		}
		h, err := s.Heights(o.End)
		if err != nil {
			return err
		}
		for i := range h {
			got, ought := float64(h[i]-h[0]), float64(want.Heights[i]-want.Heights[0])
			if math.Abs(got-ought) > 1e-6*math.Max(1, float64(want.Difference)) {
				return fmt.Errorf("tank %d: %.9g m over the first, Spread says %.9g", i, got, ought)
			}
		}
		return nil
	})
}

// Two tanks by Spread are the two tanks of SteadyCrossing.
func TestSpread_twoTanks(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		a, b := g.Float(0.2, 1), g.Float(0.2, 1)
		o := tank.Opening{Bore: units.Length(g.LogFloat(0.02, 0.08)), K: g.LogFloat(1, 5), Length: units.Length(g.Float(0, 2))}
		q := units.VolumeFlow(g.LogFloat(1e-5, 2e-3))
		s := &tank.System{Fluid: cold, Tanks: []tank.Tank{{Shape: upright(a, 100)}, {Shape: upright(b, 100)}},
			Links: []tank.Link{{From: 0, To: 1, Opening: o}}, Fills: []tank.Fill{{Tank: 0, Flow: q}}}
		sp, err := s.Spread([]tank.Content{{Volume: units.Volume(50 * a)}, {Volume: units.Volume(50 * b)}})
		if err != nil {
			return err
		}
		x, err := tank.SteadyCrossing(q, units.Area(a), units.Area(b), o, cold)
		if err != nil {
			return err
		}
		if d := math.Abs(float64(sp.Difference-x.Difference)) / float64(x.Difference); d > 1e-9 {
			return fmt.Errorf("Spread %v, SteadyCrossing %v", sp.Difference, x.Difference)
		}
		if d := math.Abs(float64(sp.Links[0]-x.Flow)) / float64(x.Flow); d > 1e-9 {
			return fmt.Errorf("Spread %v, SteadyCrossing %v", sp.Links[0], x.Flow)
		}
		return nil
	})
}

// Two integrations in one process give the same bits.
func TestRun_deterministic(t *testing.T) {
	for name, c := range references() {
		a := must[*tank.Outcome](t)(c.s.Run(c.start, 400, tank.RunOptions{}))
		b := must[*tank.Outcome](t)(c.s.Run(c.start, 400, tank.RunOptions{}))
		if d := cmp.Diff(a, b); d != "" {
			t.Errorf("%s: -first +second\n%s", name, d)
		}
	}
}

// pair is two equal tanks of 0.6 m² and 0.8 m with a crossover at the floor.
func pair() *tank.System {
	return &tank.System{Fluid: cold,
		Tanks: []tank.Tank{{Name: "near", Shape: upright(0.6, 0.8)}, {Name: "far", Shape: upright(0.6, 0.8)}},
		Links: []tank.Link{{Name: "joint", From: 0, To: 1, Opening: tank.Opening{Bore: 0.05, K: 2, Length: 1}}},
	}
}

func volumes(v ...float64) []tank.Content {
	out := make([]tank.Content, len(v))
	for i := range v {
		out[i].Volume = units.Volume(v[i])
	}
	return out
}

func TestRun_edges(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*tank.System)
		start  []tank.Content
		want   []float64 // volumes after an hour
		events []tank.EventKind
	}{
		{"empty tanks", func(*tank.System) {}, volumes(0, 0), []float64{0, 0}, nil},
		{"closed valve", func(s *tank.System) { s.Links[0].Shut = true }, volumes(0.3, 0.1), []float64{0.3, 0.1}, nil},
		{"levels already equal", func(*tank.System) {}, volumes(0.2, 0.2), []float64{0.2, 0.2}, nil},
		{"levels come to rest", func(*tank.System) {}, volumes(0.4, 0), []float64{0.2, 0.2}, nil},
		{"check valve the wrong way", func(s *tank.System) { s.Links[0].OneWay = true }, volumes(0.1, 0.3), []float64{0.1, 0.3}, nil},
		{"check valve the right way", func(s *tank.System) { s.Links[0].OneWay = true }, volumes(0.3, 0.1), []float64{0.2, 0.2}, nil},
		{"crossover above the water line", func(s *tank.System) {
			s.Links[0].FromPort.Height, s.Links[0].ToPort.Height = 0.6, 0.6
		}, volumes(0.3, 0.1), []float64{0.3, 0.1}, nil},
		{"crossover half way up", func(s *tank.System) {
			s.Links[0].FromPort.Height, s.Links[0].ToPort.Height = 0.4, 0.4
		}, volumes(0.36, 0.06), []float64{0.24, 0.18}, nil},
		{"level at the outlet", func(s *tank.System) {
			s.Links[0].Shut = true
			s.Outlets = []tank.Outlet{{Tank: 0, Port: tank.Point{Height: 0.25}, Opening: tank.Opening{Bore: 0.05, K: 2}}}
		}, volumes(0.15, 0.1), []float64{0.15, 0.1}, nil},
		{"drawing an empty tank", func(s *tank.System) {
			s.Draws = []tank.Draw{{Tank: 0, Flow: 1e-3}}
		}, volumes(0, 0), []float64{0, 0}, []tank.EventKind{tank.PortDries}},
		{"a draw of nothing", func(s *tank.System) {
			s.Draws = []tank.Draw{{Tank: 0, Flow: 0}}
		}, volumes(0.2, 0.2), []float64{0.2, 0.2}, nil},
		{"filling full tanks", func(s *tank.System) {
			s.Fills = []tank.Fill{{Tank: 0, Flow: 1e-3}}
		}, volumes(0.48, 0.48), []float64{0.48, 0.48}, []tank.EventKind{tank.SpillBegins}},
		{"float valve", func(s *tank.System) {
			s.Fills = []tank.Fill{{Tank: 0, Flow: 1e-3, Stop: 0.5}}
		}, volumes(0, 0), []float64{0.3, 0.3}, []tank.EventKind{tank.FloatShuts}},
		{"float valve follows a draw", func(s *tank.System) {
			s.Fills = []tank.Fill{{Tank: 0, Flow: 1e-3, Stop: 0.5}}
			s.Draws = []tank.Draw{{Tank: 0, Flow: 4e-4}}
			s.Links[0].Shut = true
		}, volumes(0.3, 0), []float64{0.3, 0}, []tank.EventKind{tank.FloatShuts}},
		{"a draw lives on what comes in", func(s *tank.System) {
			s.Links[0].Shut = true
			s.Fills = []tank.Fill{{Tank: 0, Flow: 4e-4}}
			s.Draws = []tank.Draw{{Tank: 0, Flow: 1e-3, Port: tank.Point{Height: 0.1}}}
		}, volumes(0.06, 0), []float64{0.06, 0}, []tank.EventKind{tank.PortDries}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := pair()
			c.change(s)
			o := must[*tank.Outcome](t)(s.Run(c.start, units.Hour, tank.RunOptions{}))
			for i, w := range c.want {
				if math.Abs(float64(o.End[i].Volume)-w) > 1e-8 {
					t.Errorf("tank %d holds %.9g m³, want %g", i, float64(o.End[i].Volume), w)
				}
			}
			var kinds []tank.EventKind
			for _, e := range o.Events {
				kinds = append(kinds, e.Kind)
			}
			if !cmp.Equal(kinds, c.events) {
				t.Errorf("events %v, want %v", kinds, c.events)
			}
		})
	}
	s := pair()
	s.Fills = []tank.Fill{{Tank: 0, Flow: 4e-4}}
	s.Draws = []tank.Draw{{Tank: 0, Flow: 1e-3, Port: tank.Point{Height: 0.1}}}
	s.Links[0].Shut = true
	o := must[*tank.Outcome](t)(s.Run(volumes(0.06, 0), 1000, tank.RunOptions{}))
	near(t, "a starved draw gets what comes in", float64(o.Draws[0].Volume), 0.4, 1e-9)
	if o := must[*tank.Outcome](t)(pair().Run(volumes(0.3, 0.1), 0, tank.RunOptions{Sample: []units.Duration{0}})); o.Time != 0 || len(o.Samples) != 1 || o.End[0].Volume != 0.3 {
		t.Errorf("a run of no time: %+v", o)
	}
}

// Volume and float hit their targets with several things at one height.
func TestRun_sharedThreshold(t *testing.T) {
	s := pair()
	s.Links[0].Shut = true
	at := tank.Point{Height: 0.1}
	s.Draws = []tank.Draw{{Tank: 0, Flow: 3e-4, Port: at}, {Tank: 0, Flow: 1e-4, Port: at}}
	s.Fills = []tank.Fill{{Tank: 0, Flow: 1e-4}}
	o := must[*tank.Outcome](t)(s.Run(volumes(0.06, 0), 1000, tank.RunOptions{}))
	near(t, "the greater draw's share", float64(o.Draws[0].Volume), 0.075, 1e-9)
	near(t, "the lesser draw's share", float64(o.Draws[1].Volume), 0.025, 1e-9)
	// A float valve at the very lid: it shuts before anything spills.
	s = pair()
	s.Fills = []tank.Fill{{Tank: 0, Flow: 1e-3, Stop: 0.8}}
	o = must[*tank.Outcome](t)(s.Run(volumes(0.4, 0.4), units.Hour, tank.RunOptions{}))
	if o.Spills[0].Volume > 1e-9 || math.Abs(float64(o.End[1].Volume)-0.48) > 1e-6 {
		t.Errorf("spilt %v, far tank %v", o.Spills[0].Volume, o.End[1].Volume)
	}
}

func TestSystem_refuses(t *testing.T) {
	for _, c := range []struct {
		path   string
		change func(*tank.System)
		err    error
	}{
		{"fluid.density", func(s *tank.System) { s.Fluid = hydraulics.Fluid{} }, units.ErrMissing},
		{"tanks", func(s *tank.System) { s.Tanks = nil; s.Links = nil }, units.ErrMissing},
		{"tanks[near].shape.area", func(s *tank.System) { s.Tanks[0].Shape.Area = units.Area(math.NaN()) }, units.ErrRange},
		{"tanks[far].shape.form", func(s *tank.System) { s.Tanks[1].Shape.Form = 0 }, units.ErrMissing},
		{"tanks[near].overflow.height", func(s *tank.System) { s.Tanks[0].Overflow.Height = 2 }, units.ErrRange},
		{"links[joint].to", func(s *tank.System) { s.Links[0].To = 7 }, units.ErrRange},
		{"links[joint].to", func(s *tank.System) { s.Links[0].To = 0 }, units.ErrConflict},
		{"links[joint].opening.bore", func(s *tank.System) { s.Links[0].Bore = 0 }, units.ErrMissing},
		{"links[joint].opening.k", func(s *tank.System) { s.Links[0].K = math.Inf(1) }, units.ErrRange},
		{"draws[#1].flow", func(s *tank.System) { s.Draws = []tank.Draw{{Flow: -1}} }, units.ErrRange},
		{"fills[#1].parts", func(s *tank.System) { s.Fills = []tank.Fill{{Parts: []units.Ratio{1}}} }, units.ErrConflict},
		{"outlets[#1].port.height", func(s *tank.System) {
			s.Outlets = []tank.Outlet{{Port: tank.Point{Height: 3}, Opening: tank.Orifice(0.05, 0.6)}}
		}, units.ErrRange},
		{"noseUp", func(s *tank.System) { s.NoseUp = 2 }, units.ErrRange},
	} {
		s := pair()
		c.change(s)
		_, err := s.Run(volumes(0, 0), 1, tank.RunOptions{})
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path || !errors.Is(err, c.err) {
			t.Errorf("%s: %v", c.path, err)
		}
	}
	s := pair()
	for _, start := range [][]tank.Content{nil, volumes(1), volumes(-1, 0), volumes(math.NaN(), 0), volumes(5, 0),
		{{Volume: 0.1, Parts: []units.Volume{0.1}}, {}}} {
		if _, err := s.Run(start, 1, tank.RunOptions{}); err == nil {
			t.Errorf("start %v accepted", start)
		}
	}
	for _, until := range []units.Duration{-1, units.Duration(math.NaN()), units.Duration(math.Inf(1))} {
		if _, err := s.Run(volumes(0, 0), until, tank.RunOptions{}); err == nil {
			t.Errorf("a run of %v accepted", until)
		}
	}
	if _, err := s.Run(volumes(0, 0), 10, tank.RunOptions{Sample: []units.Duration{5, 3}}); err == nil {
		t.Error("falling sample times accepted")
	}
	if _, err := s.Stranded(volumes(0.1, 0.1), 0); err == nil {
		t.Error("stranding without a draw accepted")
	}
	s.Draws, s.Fills = []tank.Draw{{Flow: 1e-3}}, []tank.Fill{{Flow: 2e-3}}
	if _, err := s.Stranded(volumes(0.1, 0.1), 0); !errors.Is(err, units.ErrConflict) {
		t.Errorf("a draw that never starves: %v", err)
	}
}

// What lies behind the sill of a crossover is heel, not stranded: it does not come
// however long the pump waits.
func TestStranded_sill(t *testing.T) {
	s := pair()
	s.Links[0].FromPort.Height, s.Links[0].ToPort.Height = 0.3, 0.3
	s.Draws = []tank.Draw{{Tank: 0, Flow: 1e-4, Port: tank.Point{Height: 0.05}}}
	st := must[*tank.Stranding](t)(s.Stranded(volumes(0.3, 0.3), 0))
	near(t, "left in the far tank", float64(st.Left[1].Volume), 0.6*0.3, 1e-4)
	if st.Total > 1e-4 {
		t.Errorf("%v counts as stranded", st.Total)
	}
	// The same with the crossover named the other way round.
	s.Links[0].From, s.Links[0].To = 1, 0
	if other := must[*tank.Stranding](t)(s.Stranded(volumes(0.3, 0.3), 0)); other.Total > 1e-4 {
		t.Errorf("%v counts as stranded", other.Total)
	}
	s.Links[0].From, s.Links[0].To = 0, 1
	// A check valve that lets nothing back leaves nothing to wait for.
	s.Links[0].OneWay = true
	st = must[*tank.Stranding](t)(s.Stranded(volumes(0.3, 0.3), 0))
	if st.Total != 0 || math.Abs(float64(st.Left[1].Volume)-0.3) > 1e-9 {
		t.Errorf("behind a check valve: %+v", st)
	}
}

// Leaning to the left the right tank runs into the left one, and leaning to the right
// the other way round; the levels differ by the width times the slope.
func TestRun_leans(t *testing.T) {
	for _, lean := range []float64{0.04, -0.04} {
		s := pair()
		s.Tanks[0].Y, s.Tanks[1].Y = 0.5, -0.5 // left, right
		s.LeftDown = units.Angle(lean)
		o := must[*tank.Outcome](t)(s.Run(volumes(0.2, 0.2), units.Hour, tank.RunOptions{}))
		h := must[[]units.Length](t)(s.Levels(o.End))
		near(t, "left over right", float64(h[0]-h[1]), math.Tan(lean), 1e-6)
		e := must[[]units.Length](t)(s.Heights(o.End))
		if d := math.Abs(float64(e[1] - e[0])); d > 1e-8 {
			t.Errorf("the surfaces stand %g m apart", d)
		}
	}
	// Nose up the rear tank stands higher, by the length times the slope.
	s := pair()
	s.Tanks[1].X = 1
	s.NoseUp = 0.04
	o := must[*tank.Outcome](t)(s.Run(volumes(0.2, 0.2), units.Hour, tank.RunOptions{}))
	h := must[[]units.Length](t)(s.Levels(o.End))
	near(t, "rear over front", float64(h[1]-h[0]), math.Tan(0.04), 1e-6)
}
