package vacuum_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// anyPlant draws a plant of the trade's sizes.
func anyPlant(t testing.TB, g *property.G) vacuum.Plant {
	plate := motorPlate()
	plate.Points[0].Lift, plate.Points[1].Flow = inH2O(g.Float(40, 140)), cfm(g.Float(60, 220))
	plate.Between = property.OneOf(g, vacuum.Straight, vacuum.Parabola)
	b := must(vacuum.NewBlower(plate))(t)
	p := vacuum.Plant{
		Air:    vacuum.Air{Pressure: units.AbsolutePressure(g.Float(70e3, 103e3)), Temperature: units.Kelvin(g.Float(265, 315))},
		Liquid: must(vacuum.Water(units.Celsius(g.Float(1, 45))))(t),
		Hoses:  g.Int(1, 2),
	}
	p.Motors = vacuum.Parallel(b, g.Int(1, 3))
	if g.Bool() {
		p.Motors = vacuum.Series(b, g.Int(1, 2))
	}
	length := g.Float(10, 120)
	hose := vacuum.Hose{Bore: inches(g.Float(1.2, 3)), Length: feet(length), Rise: feet(g.Float(0, 8))}
	switch g.Pick(3) {
	case 1:
		hose.Corrugated = units.Ratio(g.Float(1, 3))
	case 2:
		hose.Pitch = hose.Bore * units.Length(g.Float(0.05, 0.3))
	}
	p.Path = []vacuum.Element{vacuum.RatedLoss{Flow: cfm(100), Loss: inH2O(g.Float(0, 20)), Air: vacuum.StandardAir()},
		vacuum.Fitting{K: g.Float(0, 3), Bore: hose.Bore}, hose}
	if g.Bool() {
		p.Duct = []vacuum.Element{vacuum.RatedLoss{Flow: cfm(200), Loss: inH2O(g.Float(0, 15)), Linear: units.Ratio(g.Float(0, 1)), Air: vacuum.StandardAir()}}
	}
	if g.Bool() {
		p.Bleed = vacuum.Opening{Area: units.Area(g.Float(0.05, 1)) * units.SquareInch, Discharge: 0.6}
	}
	return p
}

// Air in is air out; losses add up to the vacuum; and every number is finite.
func TestOperate_balances(t *testing.T) {
	seen := map[vacuum.Regime]int{}
	property.Check(t, func(g *property.G) error {
		p := anyPlant(t, g)
		water := gpm(0)
		if g.Bool() {
			water = gpm(g.LogFloat(0.05, 30))
		}
		op, err := p.Operate(water)
		if err != nil {
			return err
		}
		seen[op.Regime]++
		for _, v := range []float64{float64(op.Air), float64(op.Bleed), float64(op.Drawn), float64(op.FreeAir), float64(op.Tool), float64(op.Tank), float64(op.Motors), float64(op.Velocity), float64(op.Load)} {
			if math.IsNaN(v) || math.IsInf(v, 0) || v < -1e-9 {
				return fmt.Errorf("%+v", op)
			}
		}
		if d := math.Abs(float64(op.Air+op.Bleed-op.Drawn)) / math.Max(float64(op.Drawn), 1e-12); d > 1e-12 {
			return fmt.Errorf("air in %v, out %v", op.Air+op.Bleed, op.Drawn)
		}
		sum := units.Pressure(0)
		for i, s := range op.Steps {
			if i < len(p.Path) && op.Regime == vacuum.FallBack {
				continue // the closed hose
			}
			sum += s.Loss
			if s.Loss < -1e-9 {
				return fmt.Errorf("element %d gives back %v", i, s.Loss)
			}
		}
		if op.Regime != vacuum.FallBack && op.Regime != vacuum.Still && math.Abs(float64(sum-op.Motors)) > 1e-6*float64(op.Motors)+1e-6 {
			return fmt.Errorf("losses %v, vacuum %v", sum, op.Motors)
		}
		// The motors make that vacuum at that flow.
		density, err := p.Air.Density()
		if err != nil {
			return err
		}
		lift, err := p.Motors.Lift(p.Air, units.VolumeFlow(float64(op.Drawn)/float64(density)*(1-1e-12)))
		if err != nil {
			return err
		}
		if math.Abs(float64(lift-op.Motors)) > 1e-7*float64(lift)+1e-3 {
			return fmt.Errorf("the motors make %v, the plant has %v", lift, op.Motors)
		}
		return nil
	})
	cases := 0
	for _, n := range seen {
		cases += n
	}
	for _, r := range []vacuum.Regime{vacuum.Dry, vacuum.Carried, vacuum.Slugging, vacuum.FallBack} {
		if seen[r] == 0 && cases >= 100 { // the rarest regime takes some thirty cases to turn up
			t.Errorf("no case was %v", r)
		}
	}
}

// What makes it harder never raises the pick-up, and a motor more never lowers it.
func TestPickUp_properties(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p := anyPlant(t, g)
		v := fpm(g.Float(1500, 5000))
		base, err := p.PickUp(v)
		if err != nil {
			return err
		}
		if !(base.Low <= base.Rate && base.Rate <= base.High) || base.Low < 0 {
			return fmt.Errorf("rate %v between %v and %v", base.Rate, base.Low, base.High)
		}
		if (base.Rate == 0) != (base.Limit == vacuum.AirShort) && base.Rate > 0 {
			return fmt.Errorf("rate %v with %v", base.Rate, base.Limit)
		}
		hose := p.Path[2].(vacuum.Hose)
		change := func(what string, c func(p *vacuum.Plant, h *vacuum.Hose), sign float64) error {
			q, h := p, hose
			q.Path = append([]vacuum.Element(nil), p.Path...)
			q.Motors = append(vacuum.Bank(nil), p.Motors...)
			c(&q, &h)
			q.Path[2] = h
			u, err := q.PickUp(v)
			if err != nil {
				return err
			}
			if d := float64(u.Rate-base.Rate) * sign; d > 1e-9*float64(base.Rate)+1e-12 {
				return fmt.Errorf("%s: %v, before %v", what, u.Rate, base.Rate)
			}
			return nil
		}
		more := g.Float(1.01, 2)
		for _, err := range []error{
			change("longer hose", func(p *vacuum.Plant, h *vacuum.Hose) { h.Length *= units.Length(more) }, 1),
			change("higher", func(p *vacuum.Plant, h *vacuum.Hose) {
				h.Rise = min(h.Rise+feet(more), h.Length)
			}, 1),
			change("tool with more loss", func(p *vacuum.Plant, h *vacuum.Hose) {
				p.Path[0] = vacuum.RatedLoss{Flow: cfm(100), Loss: inH2O(20.1 * more), Air: vacuum.StandardAir()}
			}, 1),
			change("dirtier filter", func(p *vacuum.Plant, h *vacuum.Hose) {
				p.Duct = append([]vacuum.Element{vacuum.RatedLoss{Flow: cfm(200), Loss: inH2O(5 * more), Air: vacuum.StandardAir()}}, p.Duct...)
			}, 1),
			change("a motor more", func(p *vacuum.Plant, h *vacuum.Hose) {
				for i := range p.Motors {
					p.Motors[i].Running++
				}
			}, -1),
			change("a leak", func(p *vacuum.Plant, h *vacuum.Hose) {
				if p.Bleed.Area == 0 {
					p.Bleed = vacuum.Opening{Area: 0.5 * units.SquareInch, Discharge: 0.6}
				} else {
					p.Bleed.Area *= units.Area(more)
				}
			}, 1),
		} {
			if err != nil {
				return err
			}
		}
		// At the rate the plant settles at the speed asked for.
		if base.Rate > gpm(0.01) {
			op, err := p.Operate(base.Rate)
			if err != nil {
				return err
			}
			if op.Regime == vacuum.FallBack || float64(op.Velocity) < float64(v)*(1-1e-6) {
				return fmt.Errorf("at %v: %v, %v asked %v", base.Rate, op.Regime, op.Velocity, v)
			}
		}
		return nil
	})
}

// A dirtier filter never raises the flow of air, a wet hose never passes more than a
// dry one, and a motor more never draws less.
func TestOperate_monotone(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p := anyPlant(t, g)
		dry, err := p.Operate(0)
		if err != nil {
			return err
		}
		if wet, err := p.Operate(gpm(g.LogFloat(0.01, 20))); err != nil || wet.Air > dry.Air*(1+1e-9) {
			return fmt.Errorf("wet %v, dry %v, %v", wet.Air, dry.Air, err)
		}
		q := p
		q.Duct = append([]vacuum.Element{vacuum.RatedLoss{Flow: cfm(200), Loss: inH2O(g.Float(0.1, 30)), Linear: units.Ratio(g.Float(0, 1)), Air: vacuum.StandardAir()}}, p.Duct...)
		if dirty, err := q.Operate(0); err != nil || dirty.Air > dry.Air || dirty.Drawn > dry.Drawn {
			return fmt.Errorf("dirty %v, clean %v, %v", dirty.Air, dry.Air, err)
		}
		m := p
		m.Motors = append(vacuum.Bank(nil), p.Motors...)
		for i := range m.Motors {
			m.Motors[i].Running++
		}
		if more, err := m.Operate(0); err != nil || more.Air < dry.Air*(1-1e-9) || more.Tank < dry.Tank-1e-6 {
			return fmt.Errorf("one motor more: air %v, before %v; tank %v, before %v; %v", more.Air, dry.Air, more.Tank, dry.Tank, err)
		}
		return nil
	})
}

// Sealed hose, open inlet, dry, and what lies next to each.
func TestOperate_edges(t *testing.T) {
	air := vacuum.StandardAir()
	p := plant(t, 1)
	sealed := p
	sealed.Hoses = 0
	op := must(sealed.Operate(0))(t)
	if op.Regime != vacuum.Still || op.Air != 0 || math.Abs(inInches(op.Tank)-110) > 1e-9 || op.Tank != op.Motors {
		t.Errorf("sealed: %+v", op)
	}
	if op.Load != 700*units.Watt {
		t.Errorf("sealed: %v", op.Load)
	}
	if _, err := sealed.Operate(gpm(1)); err == nil {
		t.Error("water comes through closed hoses")
	} else {
		refused(t, err, "hoses", units.ErrConflict)
	}

	// A slot that closes: the vacuum in the tank goes to the sealed lift steadily.
	last := 0.0
	for _, area := range []float64{3, 1, 0.3, 0.1, 0.01, 1e-3, 1e-4} {
		q := p
		q.Path = []vacuum.Element{vacuum.Opening{Area: units.Area(area) * units.SquareInch, Discharge: 0.6}}
		op := must(q.Operate(0))(t)
		if h := inInches(op.Tank); !(h > last) || h > 110 {
			t.Errorf("slot of %v in²: %.3f in of water, wider one %.3f", area, h, last)
		} else {
			last = h
		}
	}
	if last < 109.9 {
		t.Errorf("nearly closed: %.3f in of water of 110", last)
	}

	open := vacuum.Plant{Air: air, Motors: p.Motors, Hoses: 1}
	op = must(open.Operate(0))(t)
	if op.Regime != vacuum.Dry || math.Abs(inCFM(op.FreeAir)-120) > 1e-6 || math.Abs(float64(op.Tank)) > 1e-6 || op.Load != 1100*units.Watt {
		t.Errorf("open inlet: %+v", op)
	}
	// A short wide pipe is nearly open.
	open.Path = []vacuum.Element{vacuum.Hose{Bore: inches(8), Length: feet(0.5)}}
	if op = must(open.Operate(0))(t); math.Abs(inCFM(op.FreeAir)-120) > 0.1 {
		t.Errorf("8 in pipe: %v cfm of 120", inCFM(op.FreeAir))
	}

	stopped := plant(t, 0)
	op = must(stopped.Operate(0))(t)
	if op.Regime != vacuum.Still || op.Tank != 0 || op.Air != 0 || op.Load != 0 {
		t.Errorf("no motor: %+v", op)
	}
	if op = must(stopped.Operate(gpm(2)))(t); op.Regime != vacuum.FallBack || op.Water != 0 {
		t.Errorf("no motor, with water: %+v", op)
	}
	u := must(stopped.PickUp(fpm(3000)))(t)
	if u.Limit != vacuum.NoMotor || u.Rate != 0 {
		t.Errorf("no motor: %+v", u)
	}
	if u = must(sealed.PickUp(fpm(3000)))(t); u.Limit != vacuum.Closed || u.Rate != 0 || u.Column < feet(9) {
		t.Errorf("closed hoses: %+v", u)
	}

	// Fall-back: a riser higher than the motors hold.
	high := p
	high.Path = []vacuum.Element{vacuum.Hose{Bore: inches(2), Length: feet(60), Rise: feet(60)}}
	op = must(high.Operate(gpm(40)))(t)
	if op.Regime != vacuum.FallBack || op.Water != 0 || op.Air != 0 || math.Abs(inInches(op.Tank)-110) > 1e-9 {
		t.Errorf("60 ft up: %+v", op)
	}
	if u := must(high.PickUp(fpm(3000)))(t); u.Drowned != 0 {
		t.Errorf("60 ft up, drowned: %+v", u)
	}

	// Closed hoses with a leak: the leak alone.
	leak := sealed
	leak.Bleed = vacuum.Opening{Area: 1 * units.SquareInch, Discharge: 0.6}
	op = must(leak.Operate(0))(t)
	if op.Regime != vacuum.Still || op.Bleed <= 0 || op.Air != 0 || op.Drawn != op.Bleed || !(inInches(op.Tank) < 110) {
		t.Errorf("leak: %+v", op)
	}
	if fmt.Sprint(vacuum.Still, vacuum.Dry, vacuum.Carried, vacuum.Slugging, vacuum.FallBack, vacuum.Regime(9)) != "still dry carried slugging fall-back unknown regime" {
		t.Error("words of the regimes")
	}
	if vacuum.AirShort.String() == "" || vacuum.Cause(99).String() != "unknown cause" {
		t.Error("words of the causes")
	}
}

// The first drop of water changes little, and so does the last of the air.
func TestOperate_continuous(t *testing.T) {
	p := plant(t, 1)
	dry := must(p.Operate(0))(t)
	drop := must(p.Operate(units.VolumeFlow(1e-9)))(t) // a drop in a minute
	if d := math.Abs(float64(drop.Air/dry.Air) - 1); d > 0.02 {
		t.Errorf("a drop of water takes %.2f %% of the air", 100*d)
	}
	less := must(p.Operate(units.VolumeFlow(1.01e-9)))(t)
	if d := math.Abs(float64(less.Air/drop.Air) - 1); d > 1e-3 {
		t.Errorf("one in a hundred more of it takes %.2g of the air", d)
	}
	// From little water to the most that is lifted, the air falls without a jump
	// of more than the step explains.
	last := drop
	for q := 0.05; q < 6; q *= 1.1 {
		op := must(p.Operate(gpm(q)))(t)
		if op.Regime == vacuum.FallBack {
			break
		}
		if r := float64(op.Air / last.Air); r > 1 || r < 0.7 {
			t.Errorf("at %.2f gpm the air falls to %.2f of the step before", q, r)
		}
		last = op
	}
}

func TestPlant_refuses(t *testing.T) {
	for _, c := range []struct {
		name, path string
		kind       error
		spoil      func(*vacuum.Plant)
	}{
		{"no air", "air.pressure", units.ErrMissing, func(p *vacuum.Plant) { p.Air = vacuum.Air{} }},
		{"no liquid", "liquid.density", units.ErrMissing, func(p *vacuum.Plant) { p.Liquid = vacuum.Liquid{} }},
		{"liquid of lead", "liquid.density", units.ErrRange, func(p *vacuum.Plant) { p.Liquid.Density = 1e6 }},
		{"too many hoses", "hoses", units.ErrRange, func(p *vacuum.Plant) { p.Hoses = 1000 }},
		{"nothing in the path", "path[#1]", units.ErrMissing, func(p *vacuum.Plant) { p.Path = []vacuum.Element{nil} }},
		{"no bore", "path[#2].bore", units.ErrMissing, func(p *vacuum.Plant) { p.Path[1] = vacuum.Hose{Length: feet(1)} }},
		{"climbs more than its length", "path[#2].rise", units.ErrConflict, func(p *vacuum.Plant) { p.Path[1] = vacuum.Hose{Bore: inches(2), Length: feet(1), Rise: feet(2)} }},
		{"leads down", "path[#2].rise", units.ErrRange, func(p *vacuum.Plant) { p.Path[1] = vacuum.Hose{Bore: inches(2), Length: feet(3), Rise: -feet(2)} }},
		{"twice corrugated", "path[#2].corrugated", units.ErrConflict, func(p *vacuum.Plant) {
			p.Path[1] = vacuum.Hose{Bore: inches(2), Length: feet(1), Corrugated: 2, Pitch: inches(0.2)}
		}},
		{"smoother than smooth", "path[#2].corrugated", units.ErrRange, func(p *vacuum.Plant) { p.Path[1] = vacuum.Hose{Bore: inches(2), Length: feet(1), Corrugated: 0.5} }},
		{"pitch", "path[#2].pitch", units.ErrRange, func(p *vacuum.Plant) { p.Path[1] = vacuum.Hose{Bore: inches(2), Length: feet(1), Pitch: -1} }},
		{"rough corrugations", "path[#2].roughness", units.ErrConflict, func(p *vacuum.Plant) {
			p.Path[1] = vacuum.Hose{Bore: inches(2), Length: feet(1), Pitch: inches(0.2), Roughness: 1e-4}
		}},
		{"too rough", "path[#2].roughness", units.ErrRange, func(p *vacuum.Plant) { p.Path[1] = vacuum.Hose{Bore: inches(2), Length: feet(1), Roughness: inches(1)} }},
		{"negative loss", "path[#1].loss", units.ErrRange, func(p *vacuum.Plant) {
			p.Path[0] = vacuum.RatedLoss{Flow: cfm(1), Loss: -1, Air: vacuum.StandardAir()}
		}},
		{"loss in no air", "path[#1].air.pressure", units.ErrMissing, func(p *vacuum.Plant) { p.Path[0] = vacuum.RatedLoss{Flow: cfm(1), Loss: 1} }},
		{"share", "path[#1].linear", units.ErrRange, func(p *vacuum.Plant) {
			p.Path[0] = vacuum.RatedLoss{Flow: cfm(1), Loss: 1, Linear: 2, Air: vacuum.StandardAir()}
		}},
		{"fitting", "path[#1].k", units.ErrRange, func(p *vacuum.Plant) { p.Path[0] = vacuum.Fitting{K: math.NaN(), Bore: inches(2)} }},
		{"slot", "path[#1].discharge", units.ErrMissing, func(p *vacuum.Plant) { p.Path[0] = vacuum.Slot(feet(3), inches(0.1), 0) }},
		{"bleed", "bleed.discharge", units.ErrMissing, func(p *vacuum.Plant) { p.Bleed.Area = 1e-4 }},
		{"motors", "motors.stages[#1].blower", units.ErrMissing, func(p *vacuum.Plant) { p.Motors = vacuum.Parallel(nil, 1) }},
		{"duct", "duct[#1]", units.ErrMissing, func(p *vacuum.Plant) { p.Duct[0] = nil }},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := plant(t, 1)
			c.spoil(&p)
			_, err := p.Operate(gpm(1))
			refused(t, err, c.path, c.kind)
			_, err = p.PickUp(fpm(3000))
			refused(t, err, c.path, c.kind)
		})
	}
	p := plant(t, 1)
	_, err := p.Operate(-1)
	refused(t, err, "water", units.ErrRange)
	_, err = p.PickUp(0)
	refused(t, err, "speed", units.ErrMissing)
	p.Path = p.Path[:1]
	_, err = p.PickUp(fpm(3000))
	refused(t, err, "path", units.ErrMissing)
	_, _, err = plant(t, 1).MotorsFor(0, fpm(3000), 3)
	refused(t, err, "need", units.ErrMissing)
	_, _, err = plant(t, 1).MotorsFor(gpm(1), fpm(3000), 0)
	refused(t, err, "most", units.ErrRange)
	_, err = vacuum.Puddle(gpm(5), 2, 0)
	refused(t, err, "recovered", units.ErrRange)
}

// Units do not matter, nor does the order of calls, nor sharing.
func TestOperate_repeats(t *testing.T) {
	p := plant(t, 2)
	want := must(p.Operate(gpm(3)))(t)
	done := make(chan vacuum.Operation)
	for range 4 {
		go func() {
			op, _ := p.Operate(gpm(3))
			done <- op
		}()
	}
	for range 4 {
		if got := <-done; fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
}
