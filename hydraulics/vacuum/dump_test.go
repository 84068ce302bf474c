package vacuum_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func anyDump(t testing.TB, g *property.G) vacuum.Dump {
	p := must(vacuum.NewDumpPump([]vacuum.DumpPoint{{Head: feet(g.Float(3, 60))}, {Flow: gpm(g.Float(2, 60))}}, property.OneOf(g, vacuum.Straight, vacuum.Parabola)))(t)
	d := vacuum.Dump{Pump: p, Running: g.Int(0, 3), Liquid: must(vacuum.Water(units.Celsius(g.Float(1, 60))))(t), Rise: feet(g.Float(-4, 12)),
		Bore: inches(g.Float(0.5, 2)), Length: feet(g.Float(0, 60)), K: g.Float(0.5, 10)}
	if g.Bool() {
		d.Filters = train(t)
		d.Loaded = []units.Ratio{units.Ratio(g.Float(0, 1)), units.Ratio(g.Float(0, 1))}
	}
	if d.CheckValve = g.Bool(); d.CheckValve {
		d.Cracking = psi(g.Float(0, 1))
	}
	return d
}

// Heads add up, every number is finite, and more vacuum, more dirt, more lift never
// let more out.
func TestDump_properties(t *testing.T) {
	back, stuck, out := 0, 0, 0
	property.Check(t, func(g *property.G) error {
		d := anyDump(t, g)
		vac := inH2O(g.Float(0, 120))
		base, err := d.At(vac)
		if err != nil {
			return err
		}
		for _, v := range []float64{float64(base.Flow), float64(base.Each), float64(base.Head), float64(base.Line), float64(base.Filters), float64(base.Short)} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("%+v", base)
			}
		}
		sum := base.Lift + base.Vacuum + base.Line + base.Filters + base.Valve
		switch {
		case base.Flow > 0:
			out++
			if base.Short != 0 || base.Back || math.Abs(float64(base.Head-sum)) > 1e-9 {
				return fmt.Errorf("head %v goes into %v: %+v", base.Head, sum, base)
			}
		case base.Flow < 0:
			back++
			if !base.Back || d.CheckValve || !(base.Short > 0) || math.Abs(float64(base.Head-sum)) > 1e-9 {
				return fmt.Errorf("back: head %v goes into %v: %+v", base.Head, sum, base)
			}
		default:
			stuck++
			if base.Head > sum+1e-12 || math.Abs(float64(base.Short-(sum-base.Head))) > 1e-9 {
				return fmt.Errorf("stuck: %+v", base)
			}
		}
		less := func(what string, want vacuum.Cause, c func(d *vacuum.Dump, v *units.Pressure)) error {
			e, v := d, vac
			c(&e, &v)
			got, err := e.At(v)
			if err != nil {
				return err
			}
			if got.Flow > base.Flow+1e-12 {
				return fmt.Errorf("%s: %v, before %v", what, got.Flow, base.Flow)
			}
			why, err := vacuum.WhyLess(e, v, d, vac)
			if err != nil || got.Flow < base.Flow && why != want {
				return fmt.Errorf("%s is explained by %v, %v", what, why, err)
			}
			if why, err = vacuum.WhyLess(d, vac, e, v); err != nil || why != vacuum.NoCause {
				return fmt.Errorf("%s: the greater flow is explained as less by %v, %v", what, why, err)
			}
			return nil
		}
		more := g.Float(1.05, 2)
		for _, err := range []error{
			less("more vacuum", vacuum.MoreVacuum, func(d *vacuum.Dump, v *units.Pressure) { *v += inH2O(10 * more) }),
			less("higher", vacuum.HigherLift, func(d *vacuum.Dump, v *units.Pressure) { d.Rise += feet(more) }),
		} {
			if err != nil {
				return err
			}
		}
		if base.Flow > 0 {
			for _, err := range []error{
				less("dirtier", vacuum.DirtierFilter, func(d *vacuum.Dump, v *units.Pressure) {
					d.Filters = append(vacuum.Train{{Flow: gpm(5), Clean: psi(1), Dirty: psi(1), Linear: 0.5}}, d.Filters...)
					if d.Loaded != nil {
						d.Loaded = append([]units.Ratio{0}, d.Loaded...)
					}
				}),
				less("longer", vacuum.LongerLine, func(d *vacuum.Dump, v *units.Pressure) { d.Length += feet(50 * more); d.K *= more }),
			} {
				if err != nil {
					return err
				}
			}
		}
		return nil
	})
	if back == 0 || stuck == 0 || out == 0 {
		t.Errorf("%d out, %d stuck, %d back", out, stuck, back)
	}
}

// A second vacuum motor deepens the vacuum and may lower what the dump moves, and
// the result says so.
func TestDump_secondMotor(t *testing.T) {
	d := dump(t)
	one := must(plant(t, 1).Operate(gpm(2)))(t)
	two := must(plant(t, 2).Operate(gpm(2)))(t)
	if !(two.Tank > one.Tank) {
		t.Fatalf("vacuum %v with one, %v with two", one.Tank, two.Tank)
	}
	a, b := must(d.At(one.Tank))(t), must(d.At(two.Tank))(t)
	why := must(vacuum.WhyLess(d, two.Tank, d, one.Tank))(t)
	if !(b.Flow < a.Flow) || why != vacuum.MoreVacuum || why.String() != "deeper vacuum in the tank" {
		t.Errorf("%v with one, %v with two: %v", a.Flow, b.Flow, why)
	}
}

func TestDump_edges(t *testing.T) {
	d := dump(t)
	// 20 ft of pump against 3 ft, 0.46 ft of check valve and 200 in of water: nothing.
	if out := must(d.At(inH2O(200)))(t); out.Flow != 0 || out.Back || !(out.Short > 0) || out.Limit != vacuum.MoreVacuum {
		t.Errorf("behind a check valve: %+v", out)
	}
	d.CheckValve, d.Cracking = false, 0
	if out := must(d.At(inH2O(220)))(t); !(out.Flow < 0) || !out.Back {
		t.Errorf("without one: %+v", out)
	}
	// Flow goes through nothing without a jump as the vacuum grows.
	last := must(d.At(0))(t)
	for v := 0.0; v < 260; v += 0.5 {
		out := must(d.At(inH2O(v)))(t)
		if float64(last.Flow-out.Flow) > float64(gpm(1.2)) {
			t.Errorf("at %.1f in of water the flow falls from %v to %v", v, last.Flow, out.Flow)
		}
		last = out
	}
	stopped := dump(t)
	stopped.Running = 0
	if out := must(stopped.At(inH2O(50)))(t); out.Flow != 0 || out.Head != 0 || out.Each != 0 || !(out.Short > feet(7)) {
		t.Errorf("pump stopped: %+v", out)
	}
	stopped.Pump = nil
	if _, err := stopped.At(0); err != nil {
		t.Errorf("no pump, none running: %v", err)
	}
	stopped.Running = 1
	_, err := stopped.At(0)
	refused(t, err, "pump", units.ErrMissing)
	// Downhill it runs by itself.
	stopped.Running, stopped.Rise = 0, -feet(6)
	if out := must(stopped.At(0))(t); !(out.Flow > 0) {
		t.Errorf("downhill: %+v", out)
	}
	// Two pumps move more than one, less than twice as much.
	two := dump(t)
	two.Running = 2
	a, b := must(dump(t).At(inH2O(60)))(t), must(two.At(inH2O(60)))(t)
	if !(b.Flow > a.Flow && b.Flow < 2*a.Flow) || b.Each*2 != b.Flow {
		t.Errorf("one %v, two %v", a.Flow, b.Flow)
	}
	if why := must(vacuum.WhyLess(dump(t), inH2O(60), two, inH2O(60)))(t); why != vacuum.WeakerPump {
		t.Errorf("one pump less is explained by %v", why)
	}
	// Nothing that resists, and water that wants back.
	bare := vacuum.Dump{Liquid: coldWater(t)}
	_, err = bare.At(inH2O(50))
	refused(t, err, "bore", units.ErrMissing)
}

func TestDump_refuses(t *testing.T) {
	for _, c := range []struct {
		path  string
		kind  error
		spoil func(*vacuum.Dump)
	}{
		{"running", units.ErrRange, func(d *vacuum.Dump) { d.Running = -1 }},
		{"liquid.viscosity", units.ErrMissing, func(d *vacuum.Dump) { d.Liquid.Viscosity = 0 }},
		{"rise", units.ErrRange, func(d *vacuum.Dump) { d.Rise = units.Length(math.NaN()) }},
		{"bore", units.ErrMissing, func(d *vacuum.Dump) { d.Bore = 0 }},
		{"length", units.ErrRange, func(d *vacuum.Dump) { d.Length = -1 }},
		{"roughness", units.ErrRange, func(d *vacuum.Dump) { d.Roughness = 1 }},
		{"k", units.ErrRange, func(d *vacuum.Dump) { d.K = -1 }},
		{"filters[#1].flow", units.ErrMissing, func(d *vacuum.Dump) { d.Filters[0].Flow = 0 }},
		{"filters[#2].dirty", units.ErrConflict, func(d *vacuum.Dump) { d.Filters[1].Dirty = psi(0.1) }},
		{"loaded", units.ErrConflict, func(d *vacuum.Dump) { d.Loaded = []units.Ratio{1} }},
		{"loaded[#2]", units.ErrRange, func(d *vacuum.Dump) { d.Loaded = []units.Ratio{1, 99} }},
		{"cracking", units.ErrConflict, func(d *vacuum.Dump) { d.CheckValve = false }},
	} {
		d := dump(t)
		c.spoil(&d)
		_, err := d.At(inH2O(20))
		refused(t, err, c.path, c.kind)
	}
	_, err := dump(t).At(-1)
	refused(t, err, "vacuum", units.ErrRange)
	_, err = dump(t).FilterAllowance(0, 0)
	refused(t, err, "want", units.ErrMissing)
	_, err = vacuum.NewDumpPump(nil, vacuum.Straight)
	refused(t, err, "points", units.ErrMissing)
	_, err = vacuum.NewDumpPump([]vacuum.DumpPoint{{Head: feet(10)}, {Flow: gpm(10), Head: feet(1)}}, vacuum.Straight)
	refused(t, err, "points[#2].head", units.ErrRange)
	p := pump(t)
	if p.Shutoff() != feet(20) || p.Runout() != gpm(14) {
		t.Errorf("ends %v, %v", p.Shutoff(), p.Runout())
	}
}

// The change-out loss for a wanted flow is the loss at which that flow is what is
// left.
func TestDump_filterAllowance(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		d := anyDump(t, g)
		d.Filters, d.Loaded = nil, nil
		d.Running = max(d.Running, 1)
		vac := inH2O(g.Float(0, 60))
		free, err := d.At(vac)
		if err != nil {
			return err
		}
		if free.Flow <= gpm(0.1) || free.Flow > d.Pump.Runout()*units.VolumeFlow(d.Running) {
			return property.ErrDiscard
		}
		want := free.Flow * units.VolumeFlow(g.Float(0.05, 0.99))
		loss, err := d.FilterAllowance(want, vac)
		if err != nil {
			return err
		}
		d.Filters = vacuum.Train{{Flow: want, Clean: loss, Dirty: loss}}
		got, err := d.At(vac)
		if err != nil {
			return err
		}
		if math.Abs(float64(got.Flow/want)-1) > 1e-9 {
			return fmt.Errorf("with filters of %v the flow is %v, wanted %v", loss, got.Flow, want)
		}
		return nil
	})
}

func TestFill_edges(t *testing.T) {
	v := gallons(20)
	for _, c := range []struct {
		what          string
		held          units.Volume
		in, out       units.VolumeFlow
		trips, empty  bool
		minutes, free float64
	}{
		{"rises", 0, gpm(5), gpm(3), true, false, 10, 0},
		{"half full", gallons(10), gpm(5), gpm(3), true, false, 5, 0},
		{"pump stopped", 0, gpm(5), 0, true, false, 4, 0},
		{"water comes back", 0, gpm(3), -gpm(2), true, false, 4, 0},
		{"drum full", gallons(20), gpm(5), gpm(3), true, false, 0, 0},
		{"falls", gallons(12), gpm(2), gpm(5), false, true, 0, 4},
		{"holds", gallons(12), gpm(4), gpm(4), false, false, 0, 0},
		{"nothing moves", gallons(12), 0, 0, false, false, 0, 0},
	} {
		l := must(vacuum.Fill(v, c.held, c.in, c.out))(t)
		if l.Trips != c.trips || l.Empties != c.empty || math.Abs(l.Trip.In(units.Minute)-c.minutes) > 1e-9 || math.Abs(l.Empty.In(units.Minute)-c.free) > 1e-9 || l.Net != c.in-c.out {
			t.Errorf("%s: %+v", c.what, l)
		}
	}
	_, err := vacuum.Fill(0, 0, 0, 0)
	refused(t, err, "holds", units.ErrMissing)
	_, err = vacuum.Fill(v, gallons(21), 0, 0)
	refused(t, err, "held", units.ErrRange)
	_, err = vacuum.Fill(v, 0, -1, 0)
	refused(t, err, "in", units.ErrRange)
	_, err = vacuum.FloatCycle(v, 0, 0, units.VolumeFlow(math.NaN()))
	refused(t, err, "free", units.ErrRange)
}

func TestFloatCycle(t *testing.T) {
	v := gallons(20)
	// 5 in, 3 out: full in 10 min; cleared at 8 gpm in 2.5 min: 10 of 12.5 min.
	c := must(vacuum.FloatCycle(v, gpm(5), gpm(3), gpm(8)))(t)
	if c.Continuous || c.Never || math.Abs(float64(c.Duty)-0.8) > 1e-12 || math.Abs(c.Off.In(units.Minute)-2.5) > 1e-12 {
		t.Errorf("%+v", c)
	}
	if c = must(vacuum.FloatCycle(v, gpm(5), gpm(5), gpm(8)))(t); !c.Continuous || c.Duty != 1 {
		t.Errorf("%+v", c)
	}
	if c = must(vacuum.FloatCycle(v, gpm(5), -gpm(1), 0))(t); !c.Never || c.Duty != 0 || c.On == 0 {
		t.Errorf("%+v", c)
	}
	property.Check(t, func(g *property.G) error {
		in, out, free := gpm(g.Float(0.1, 10)), gpm(g.Float(-3, 10)), gpm(g.Float(0.1, 20))
		c, err := vacuum.FloatCycle(v, in, out, free)
		if err != nil {
			return err
		}
		if c.Duty < 0 || c.Duty > 1 || c.Continuous != (c.Duty == 1 && c.On == 0) {
			return fmt.Errorf("%+v", c)
		}
		return nil
	})
}

// A fitted dump answers what the dump answers, whatever it was asked before: the flow
// is one root, found to 1e-10 of itself from either start.
func TestFittedDump(t *testing.T) {
	var f vacuum.FittedDump
	property.Check(t, func(g *property.G) error {
		d := anyDump(t, g)
		if err := f.Refit(d); err != nil {
			return err
		}
		for range 3 {
			vac := inH2O(g.Float(0, 120))
			want, err := d.At(vac)
			if err != nil {
				return err
			}
			got, err := f.At(vac)
			if err != nil {
				return err
			}
			q, loss, err := f.Flow(vac)
			if err != nil {
				return err
			}
			lost, err := d.Filters.Loss(max(q, 0), d.Liquid, d.Loaded)
			if err != nil {
				return err
			}
			if math.Abs(float64(got.Flow-want.Flow)) > 1e-9*math.Abs(float64(want.Flow)) || got.Back != want.Back || q != got.Flow || math.Abs(float64(loss-lost)) > 1e-12*float64(lost) {
				return fmt.Errorf("at %v: %+v, fitted %+v, flow %v with %v of %v", vac, want, got, q, loss, lost)
			}
			still := d
			still.Running = 0
			want, err = still.At(vac)
			if err != nil {
				return err
			}
			back, err := f.BackFlow(vac)
			if err != nil || math.Abs(float64(back-max(-want.Flow, 0))) > 1e-9*math.Abs(float64(want.Flow)) {
				return fmt.Errorf("with the pumps still: %v, fitted %v, %v", want.Flow, back, err)
			}
		}
		return nil
	})
	if _, err := f.At(-1); err == nil {
		t.Error("a pressure in the tank is taken for a vacuum")
	} else {
		refused(t, err, "vacuum", units.ErrRange)
	}
}
