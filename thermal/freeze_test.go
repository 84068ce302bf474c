package thermal

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// Colder and windier freezes sooner, more water later; the moments come in order.
func TestFreeze_monotone(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		e := Exposed{
			Water: units.Volume(g.LogFloat(0.1, 20)) * units.Liter, Metal: units.Mass(g.Float(0.1, 100)), MetalHeat: 490,
			Area: units.Area(g.LogFloat(0.05, 5)), Diameter: units.Length(g.Float(10, 120)) * units.Millimeter,
			Bore: units.Length(g.Float(5, 60)) * units.Millimeter, Emissivity: units.Ratio(g.Float(0.1, 1)),
		}
		if g.Bool() {
			e.Wall = units.HeatTransferCoefficient(g.LogFloat(5, 500))
		}
		s := Surroundings{Air: units.Fahrenheit(g.Float(-20, 28)), Site: atm, Wind: units.Velocity(g.Float(0, 30))}
		start := units.Fahrenheit(g.Float(32, 160))
		share := units.Ratio(g.Float(0.01, 0.9))
		a, err0 := e.Freeze(start, s, share)
		cold, windy, big := s, s, e
		cold.Air = s.Air.Add(-3)
		windy.Wind = s.Wind*1.5 + 2
		b, err1 := e.Freeze(start, cold, share)
		c, err2 := e.Freeze(start, windy, share)
		big.Metal += 20
		d, err3 := big.Freeze(start, s, share)
		if err := all(err0, err1, err2, err3); err != nil {
			return err
		}
		if a.Never || a.ToFreezing > a.ToShare || a.ToShare > a.ToSolid {
			return fmt.Errorf("%+v", a)
		}
		if b.ToSolid > a.ToSolid || c.ToSolid > a.ToSolid || d.ToFreezing < a.ToFreezing {
			return fmt.Errorf("solid in %v; colder %v, windier %v; more metal at 0 °C in %v instead of %v", a.ToSolid, b.ToSolid, c.ToSolid, d.ToFreezing, a.ToFreezing)
		}
		return nil
	})
}

// With constant coefficients freezing is Plank's equation and cooling is ASHRAE's.
func TestFreeze_constantCoefficient(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		bore, L := g.Float(0.005, 0.1), g.Float(0.5, 50)
		h, Ta := g.LogFloat(2, 200), freezing-g.Float(1, 40)
		e := Exposed{
			Water: units.Volume(math.Pi / 4 * bore * bore * L), Area: units.Area(math.Pi * bore * L),
			Diameter: units.Length(bore), Bore: units.Length(bore),
		}
		leaves := func(T, R float64) (float64, error) { return (T - Ta) / (R + 1/h), nil }
		T0 := freezing + g.Float(0.5, 40)
		f, err := freeze(e, T0, 0.5, 0, leaves)
		if err != nil {
			return err
		}
		// Quasi-steady growth of ice to the share φ, whose end at φ = 1 is Plank.
		rho, err := water.Density(101325, freezing)
		if err != nil {
			return err
		}
		heat := rho * fusion
		ice := func(phi float64) float64 {
			return heat / (freezing - Ta) * (bore/(4*h)*phi + bore*bore/(16*iceConductivity)*(phi+(1-phi)*math.Log1p(-phi)))
		}
		if got, want := float64(f.ToShare-f.ToFreezing), ice(0.5); math.Abs(got-want) > 1e-6*want {
			return fmt.Errorf("half frozen in %g s, exact %g", got, want)
		}
		if got, want := float64(f.ToSolid-f.ToFreezing), ice(solidShare); math.Abs(got-want) > 1e-6*want {
			return fmt.Errorf("frozen in %g s, exact %g", got, want)
		}
		plank, err := PlankTime(units.Length(bore), units.HeatTransferCoefficient(h), units.Kelvin(Ta))
		if err != nil {
			return err
		}
		if got := float64(f.ToSolid - f.ToFreezing); got > float64(plank) || got < 0.99*float64(plank) {
			return fmt.Errorf("solid in %g s, Plank %v", got, plank)
		}
		cool, err := CoolingTime(units.Length(bore), units.ThermalConductance(math.Pi*bore*h), units.Kelvin(T0), units.Kelvin(freezing), units.Kelvin(Ta))
		if err != nil {
			return err
		}
		// Heat capacity by volume between 0 and 40 °C is within 1.2 % of that at 60 °F.
		if r := float64(f.ToFreezing / cool); r < 0.988 || r > 1.012 {
			return fmt.Errorf("at 0 °C in %v, by ASHRAE's equation %v", f.ToFreezing, cool)
		}
		return nil
	})
}

func TestFreeze_edges(t *testing.T) {
	h, s := stillAir()
	e := must[Exposed](t)(h.Exposed())
	s.Air = units.Celsius(1)
	if f := must[Freezing](t)(e.Freeze(units.Celsius(5), s, 0.1)); !f.Never || f.ToFreezing != 0 || f.ToSolid != 0 {
		t.Errorf("in air above freezing: %+v", f)
	}
	// A clear sky freezes in air just above 0 °C.
	s.Radiant = units.Celsius(-30)
	if f := must[Freezing](t)(e.Freeze(units.Celsius(5), s, 0.1)); f.Never {
		t.Errorf("under a clear sky: %+v", f)
	}
	s.Air, s.Radiant = units.Celsius(-5), units.Temperature{}
	f := must[Freezing](t)(e.Freeze(units.Celsius(0), s, 0.1))
	if f.Never || f.ToFreezing != 0 || f.ToShare <= 0 {
		t.Errorf("from 0 °C: %+v", f)
	}
}

// Glycol and volume are kept, strength falls along the line and rises with every
// litre more; the shares are those of stirred vessels in series.
func TestDisplace_properties(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		parts := make([]Trapped, g.Int(1, 6))
		trapped := 0.0
		for i := range parts {
			v := g.LogFloat(0.05, 5)
			parts[i] = Trapped{units.Volume(v) * units.Liter, units.Volume(v*g.Float(0, 1)) * units.Liter}
			trapped += float64(parts[i].Water) * 1e3
		}
		stock, v := units.Ratio(g.Float(0.05, 0.6)), g.LogFloat(0.1, 30)
		d, err := Displace(parts, stock, units.Volume(v)*units.Liter)
		if err != nil {
			return err
		}
		more, err := Displace(parts, stock, units.Volume(v*1.3)*units.Liter)
		if err != nil {
			return err
		}
		last := float64(stock)
		for i, p := range d.Parts {
			c := float64(p.Glycol)
			if c < 0 || c > last+1e-9 {
				return fmt.Errorf("part %d has %v after one of %v", i, c, last)
			}
			if more.Parts[i].Glycol < p.Glycol-1e-9 {
				return fmt.Errorf("part %d falls from %v to %v with more antifreeze", i, p.Glycol, more.Parts[i].Glycol)
			}
			if p.Glycol < d.Parts[d.Weak].Glycol {
				return fmt.Errorf("the weakest is not part %d", d.Weak)
			}
			last = c
		}
		// All that went in is in the parts or has left.
		filled, glycol := 0.0, 0.0
		for _, p := range d.Parts {
			filled += float64(p.Volume)
			glycol += float64(p.Volume) * float64(p.Glycol)
		}
		in := float64(stock) * v * 1e-3
		if sum := (trapped + v) * 1e-3; math.Abs(filled+float64(d.Outlet)-sum) > 1e-9*sum {
			return fmt.Errorf("%g m³ filled and %g left of %g", filled, float64(d.Outlet), sum)
		}
		if math.Abs(glycol+float64(d.Outlet)*float64(d.OutletGlycol)-in) > 1e-9*in {
			return fmt.Errorf("glycol %g and %g of %g m³", glycol, float64(d.Outlet)*float64(d.OutletGlycol), in)
		}
		return nil
	})
}

func TestGlycol_inverse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		x := units.Ratio(g.Float(0, 0.6))
		T, err0 := PropyleneGlycolFreezingPoint(x)
		y, err1 := PropyleneGlycolFor(T)
		colder, err2 := PropyleneGlycolFreezingPoint(min(x+0.01, 0.6))
		if err := all(err0, err1, err2); err != nil {
			return err
		}
		if math.Abs(float64(x-y)) > 1e-9 || colder.Kelvin() > T.Kelvin() {
			return fmt.Errorf("%v freezes at %v, which needs %v", x, T, y)
		}
		stock := x + units.Ratio(g.Float(0.01, 0.39))
		trapped := units.Volume(g.LogFloat(0.1, 20)) * units.Liter
		v, err3 := AntifreezeNeeded(stock, x, trapped)
		c, err4 := Dilute(stock, v, trapped)
		if err := all(err3, err4); err != nil {
			return err
		}
		if math.Abs(float64(c-x)) > 1e-12 {
			return fmt.Errorf("%v instead of %v", c, x)
		}
		return nil
	})
	if x := must[units.Ratio](t)(PropyleneGlycolFor(units.Celsius(3))); x != 0 {
		t.Errorf("above freezing it needs %v", x)
	}
	if c := must[units.Ratio](t)(Dilute(0.5, 0, 1)); c != 0 {
		t.Errorf("no antifreeze gives %v", c)
	}
}

func BenchmarkFreeze(b *testing.B) {
	h, s := stillAir()
	s.Air = units.Celsius(-10)
	e := must[Exposed](b)(h.Exposed())
	for b.Loop() {
		if _, err := e.Freeze(units.Celsius(10), s, 0.1); err != nil {
			b.Fatal(err)
		}
	}
}

func FuzzFreeze(f *testing.F) {
	f.Add(3e-3, 10.0, 2.5, 0.0175, 0.0095, 40.0, 280.0, 263.0, 3.0, 0.2, 0.5, 0.1)
	f.Fuzz(func(t *testing.T, water, metal, area, diameter, bore, wall, start, air, wind, wet, humidity, share float64) {
		e := Exposed{
			Water: units.Volume(water), Metal: units.Mass(metal), MetalHeat: 490, Area: units.Area(area), Diameter: units.Length(diameter),
			Bore: units.Length(bore), Wall: units.HeatTransferCoefficient(wall), Emissivity: 0.8,
		}
		s := Surroundings{Air: units.Kelvin(air), Site: atm, Wind: units.Velocity(wind), Wet: units.Ratio(wet), Humidity: units.Ratio(humidity)}
		r, err := e.Freeze(units.Kelvin(start), s, units.Ratio(share))
		if err == nil && (!finite(float64(r.ToSolid)) || r.ToFreezing < 0 || r.ToShare < r.ToFreezing || r.ToSolid < r.ToShare) {
			t.Errorf("%+v", r)
		}
	})
}
