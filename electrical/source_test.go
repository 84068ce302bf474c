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

func drawSource(g *property.G, name string) electrical.Source {
	s := electrical.Source{
		Name:  name,
		Kind:  electrical.SourceKind(g.Int(int(electrical.PortableSynchronous), int(electrical.BatteryInverter))),
		Rated: units.Power(g.LogFloat(500, 10_000)),
	}
	s.Start = units.Power(float64(s.Rated) * g.Float(1, 2))
	if g.Bool() {
		s.AlternatorRated = units.Power(float64(s.Rated) * g.Float(0.7, 1.5))
		s.AlternatorStart = units.Power(float64(s.AlternatorRated) * g.Float(1, 2))
	}
	if g.Bool() {
		s.RatedApparent = units.ApparentPower(float64(s.Rated) * g.Float(1, 1.3))
		s.StartApparent = units.ApparentPower(float64(s.RatedApparent) * g.Float(1, 2))
	}
	return s
}

// Thinner air never helps, touches no source without an engine of its own, and
// moves no volt-ampere limit.
func TestSource_thinnerAirNeverHelps(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := drawSource(g, "set")
		thick := g.Float(0.3, 1.2)
		thin := thick * g.Float(0.5, 1)
		loads := drawLoads(g, g.Int(1, 6), true)
		a, err := s.Carry(loads, units.Ratio(thick))
		if err != nil {
			return err
		}
		b, err := s.Carry(loads, units.Ratio(thin))
		if err != nil {
			return err
		}
		if b.Limits.RatedApparent != a.Limits.RatedApparent || b.Limits.StartApparent != a.Limits.StartApparent {
			return errors.New("a winding limit moved with the air")
		}
		if !s.Kind.OwnEngine() && b.Limits != a.Limits {
			return fmt.Errorf("limits of a %v moved with the air of another engine", s.Kind)
		}
		// Orders are chosen anew, so a tie may fall either way by a rounding.
		const rounding = 1e-12
		for _, m := range [][2]units.Ratio{{a.Running, b.Running}, {a.Best, b.Best}, {a.Worst, b.Worst}, {a.Restart, b.Restart}} {
			if float64(m[1]) > float64(m[0])+rounding*(1+math.Abs(float64(m[0]))) {
				return fmt.Errorf("a margin rose from %v to %v in thinner air", m[0], m[1])
			}
		}
		return nil
	})
}

func TestSource_bounds(t *testing.T) {
	set := electrical.Source{Name: "set", Kind: electrical.PortableSynchronous, Rated: 4800, Start: 5800, AlternatorRated: 4500, AlternatorStart: 7000}
	for _, c := range []struct {
		kind         electrical.SourceKind
		engine       units.Ratio
		rated, start units.Power
		ratedBy      electrical.Bound
		startBy      electrical.Bound
	}{
		{electrical.PortableSynchronous, 1.2, 4500, 5800, electrical.AlternatorBound, electrical.PlateBound},
		{electrical.PortableSynchronous, 0.95, 4500, 5510, electrical.AlternatorBound, electrical.EngineBound},
		{electrical.PortableInverter, 0.5, 2400, 2900, electrical.EngineBound, electrical.EngineBound},
		{electrical.EngineDriven, 0, 4500, 5800, electrical.AlternatorBound, electrical.PlateBound},
	} {
		set.Kind = c.kind
		d, err := set.Derated(c.engine)
		if err != nil {
			t.Fatal(err)
		}
		if d.Rated != c.rated || d.Start != c.start || d.RatedBound != c.ratedBy || d.StartBound != c.startBy {
			t.Errorf("%v at %v: %+v, want %v by the %v, %v by the %v", c.kind, c.engine, d, c.rated, c.ratedBy, c.start, c.startBy)
		}
	}
	shore := electrical.Source{Name: "shore", Kind: electrical.Shore, Rated: 1920}
	d, err := shore.Derated(0)
	if err != nil || d.Start != 0 || d.StartBound != electrical.Unbound {
		t.Errorf("shore: %+v, %v", d, err)
	}
}

func TestSource_errors(t *testing.T) {
	good := electrical.Source{Name: "set", Kind: electrical.PortableSynchronous, Rated: 4800, Start: 5800}
	with := func(change func(*electrical.Source)) electrical.Source {
		s := good
		change(&s)
		return s
	}
	for _, c := range []struct {
		name   string
		s      electrical.Source
		engine units.Ratio
		path   string
		kind   error
	}{
		{"nothing", electrical.Source{}, 1, "name", units.ErrMissing},
		{"no kind", with(func(s *electrical.Source) { s.Kind = 0 }), 1, "kind", units.ErrMissing},
		{"unknown kind", with(func(s *electrical.Source) { s.Kind = 77 }), 1, "kind", units.ErrRange},
		{"no rating", with(func(s *electrical.Source) { s.Rated = 0 }), 1, "rated", units.ErrMissing},
		{"no start", with(func(s *electrical.Source) { s.Start = 0 }), 1, "start", units.ErrMissing},
		{"start below rating", with(func(s *electrical.Source) { s.Start = 4000 }), 1, "start", units.ErrConflict},
		{"tiny", with(func(s *electrical.Source) { s.Rated = 5e-324 }), 1, "rated", units.ErrRange},
		{"alternator", with(func(s *electrical.Source) { s.AlternatorRated, s.AlternatorStart = 5000, 4000 }), 1, "alternatorStart", units.ErrConflict},
		{"winding", with(func(s *electrical.Source) { s.RatedApparent, s.StartApparent = 5000, 4000 }), 1, "startApparent", units.ErrConflict},
		{"no engine share", good, 0, "engine", units.ErrMissing},
		{"absurd engine share", good, 3, "engine", units.ErrRange},
		{"not a number", good, units.Ratio(math.NaN()), "engine", units.ErrRange},
	} {
		_, err := c.s.Derated(c.engine)
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path || !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v, want %v at %s", c.name, err, c.kind, c.path)
		}
	}
}

func TestShaftPower_errors(t *testing.T) {
	for _, c := range []struct {
		p    units.Power
		g, b units.Ratio
		path string
	}{
		{-1, 0.8, 0.9, "electric"},
		{units.Power(math.Inf(1)), 0.8, 0.9, "electric"},
		{100, 0, 0.9, "generator"},
		{100, 1.1, 0.9, "generator"},
		{100, 0.8, units.Ratio(math.NaN()), "belt"},
	} {
		_, err := electrical.ShaftPower(c.p, c.g, c.b)
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path {
			t.Errorf("ShaftPower(%v, %v, %v): %v, want an error at %s", c.p, c.g, c.b, err, c.path)
		}
	}
}

func TestTypicalStart_order(t *testing.T) {
	for k := electrical.UniversalMotor; k <= electrical.ElectronicLoad; k++ {
		ty, err := electrical.TypicalStart(k)
		if err != nil || !(1 <= ty.Low && ty.Low <= ty.Usual && ty.Usual <= ty.High) || ty.Source == "" {
			t.Errorf("%v: %+v, %v", k, ty, err)
		}
	}
	for _, k := range []electrical.LoadKind{0, -1, electrical.ElectronicLoad + 1} {
		if _, err := electrical.TypicalStart(k); err == nil {
			t.Errorf("TypicalStart(%v) has no error", k)
		}
	}
}

func TestLimits_margin(t *testing.T) {
	l := electrical.Limits{Rated: 4000, Start: 5000, RatedApparent: 4500, StartApparent: 6000}
	m, err := l.RunningMargin(electrical.Demand{Power: 3000, Apparent: 3600})
	if err != nil || m != 0.2 {
		t.Errorf("running margin %v, %v, want the volt-amperes' 20 %%", m, err)
	}
	m, err = l.StartMargin(electrical.Demand{Power: 5500, Apparent: 5500})
	if err != nil || m != -0.1 {
		t.Errorf("start margin %v, %v, want the watts' −10 %%", m, err)
	}
	if _, err = l.StartMargin(electrical.Demand{Power: 100}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no volt-amperes: %v", err)
	}
	if _, err = l.RunningMargin(electrical.Demand{Power: -1}); !errors.Is(err, units.ErrRange) {
		t.Errorf("negative: %v", err)
	}
	if m, err = (electrical.Limits{}).StartMargin(electrical.Demand{Power: 100}); m != 1 || err != nil {
		t.Errorf("no limit: %v, %v", m, err)
	}
}
