package hydraulics_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/property"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

var soap = hydraulics.Fluid{Density: 1050, Viscosity: 5e-3}

func injector() *hydraulics.Injector {
	return &hydraulics.Injector{
		Flow: gpm(4), Vacuum: psi(8), Draw: gpm(0.4), MinFlow: gpm(2.5), MaxBack: 0.6,
		At: hydraulics.Fluid{Density: 1000, Viscosity: 1e-3},
	}
}

func TestInjector_states(t *testing.T) {
	i := injector()
	water := hydraulics.Fluid{Density: 1000, Viscosity: 1e-3}
	rated := must(i.DrawAt(gpm(4), psi(1000), psi(300), water, 0))(t)
	worked.Check(t, worked.Case{Question: "At its rated flow, in what ratio does the injector draw?", Source: "definition of its rating", Status: worked.Identity,
		Given: []string{"rated 0.4 gpm at 4 gpm"}, Printed: "10.000", Got: rated.Water})
	less := must(i.DrawAt(gpm(3), psi(1000), psi(300), water, 0))(t)
	worked.Check(t, worked.Case{Question: "At 3 gpm, without lift, in what ratio does it draw?", Source: "draw in proportion to flow where nothing is laminar and nothing lifted", Status: worked.Identity,
		Given: []string{"rated 0.4 gpm at 4 gpm", "3 gpm"}, Printed: "10.000", Got: less.Water})
	for _, c := range []struct {
		name          string
		q             float64
		out           float64
		lift          units.Length
		want          hydraulics.Stop
		chemicalDrawn bool
	}{
		{"rated", 4, 300, 0, hydraulics.Draws, true},
		{"half the flow of two guns", 2, 300, 0, hydraulics.LowFlow, false},
		{"high-pressure tip", 4, 900, 0, hydraulics.BackPressure, false},
		{"no water", 0, 0, 0, hydraulics.LowFlow, false},
		{"chemical far below", 4, 300, 6, hydraulics.Lift, false},
		{"chemical above", 4, 300, -0.5, hydraulics.Draws, true},
	} {
		r, err := i.DrawAt(gpm(c.q), psi(1000), psi(c.out), water, c.lift)
		if err != nil {
			t.Fatal(err)
		}
		if r.Stop != c.want || (r.Chemical > 0) != c.chemicalDrawn {
			t.Errorf("%s: %+v, want %v", c.name, r, c.want)
		}
	}
}

// The draw solves the balance it is documented by; more lift, more viscosity and less
// water never draw more.
func TestInjector_balance(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		i := injector()
		i.Linear = units.Ratio(g.Float(0, 1))
		i.MinFlow = 0
		q := gpm(g.LogFloat(1, 5))
		chem := hydraulics.Fluid{Density: units.Density(g.Float(900, 1300)), Viscosity: units.DynamicViscosity(g.LogFloat(5e-4, 0.1))}
		lift := units.Length(g.Float(-1, 1))
		r, err := i.DrawAt(q, psi(1000), psi(100), chem, lift)
		if err != nil {
			return err
		}
		drive := float64(r.Vacuum) - float64(chem.Density)*9.80665*float64(lift)
		if r.Stop == hydraulics.Draws {
			c := float64(r.Chemical / i.Draw)
			loss := float64(i.Vacuum) * ((1-float64(i.Linear))*float64(chem.Density/i.At.Density)*c*c + float64(i.Linear)*float64(chem.Viscosity/i.At.Viscosity)*c)
			if math.Abs(loss/drive-1) > 1e-9 {
				return fmt.Errorf("draws against %g Pa with %g Pa", loss, drive)
			}
		} else if drive > 0 {
			return fmt.Errorf("%v with %g Pa to spare", r.Stop, drive)
		}
		for name, again := range map[string]func() (hydraulics.Injection, error){
			"more lift":  func() (hydraulics.Injection, error) { return i.DrawAt(q, psi(1000), psi(100), chem, lift+0.1) },
			"less water": func() (hydraulics.Injection, error) { return i.DrawAt(q*0.9, psi(1000), psi(100), chem, lift) },
			"more viscosity": func() (hydraulics.Injection, error) {
				c := chem
				c.Viscosity *= 2
				return i.DrawAt(q, psi(1000), psi(100), c, lift)
			},
		} {
			a, err := again()
			if err != nil {
				return err
			}
			if a.Chemical > r.Chemical*(1+1e-12) {
				return fmt.Errorf("%s raised the draw from %v to %v", name, r.Chemical, a.Chemical)
			}
		}
		return nil
	})
}

func TestDemandPump(t *testing.T) {
	pump := hydraulics.DemandPump{Open: gpm(3), Stall: psi(80), CutOut: psi(60), CutIn: psi(40), Stored: 0.2 * units.Liter}
	hose := []hydraulics.Element{hydraulics.Hose{Bore: inch(0.25), Length: feet(100)}, hydraulics.StaticHeight{Rise: feet(4)}}
	// A wide tip: the pump runs on, and it is on its own curve.
	r, err := pump.Feed(soap, hose, &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: 40}}})
	if err != nil {
		t.Fatal(err)
	}
	if want := 3 * (1 - r.Pressure.In(units.PSI)/80); r.Cycles || math.Abs(r.Flow.In(units.GallonPerMinute)/want-1) > 1e-9 || r.Duty != 1 {
		t.Errorf("wide tip: %+v, want %g gpm", r, want)
	}
	// A small one: the switch cycles, and what is pumped is what is sprayed.
	r, err = pump.Feed(soap, hose, &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: 2}}})
	if err != nil {
		t.Fatal(err)
	}
	if !r.Cycles || r.Pressure != psi(50) || r.PerHour <= 0 {
		t.Fatalf("small tip: %+v", r)
	}
	pumped := 3 * (1 - 50./80) * float64(r.On)
	if sprayed := r.Flow.In(units.GallonPerMinute) * float64(r.On+r.Off); math.Abs(pumped/sprayed-1) > 1e-9 {
		t.Errorf("one cycle pumps %g and sprays %g", pumped, sprayed)
	}
	if off := float64(r.Off) * float64(r.Flow); math.Abs(off/float64(pump.Stored)-1) > 1e-9 {
		t.Errorf("while the pump rests %g m³ leave, the line gives up %v", off, pump.Stored)
	}
	if want := must(hydraulics.NozzleFlow(2, r.Line.Outlet))(t); math.Abs(float64(r.Flow/want)-1) > 1e-9 {
		t.Errorf("the tip passes %v, the line %v", want, r.Flow)
	}
	if n := float64(r.On+r.Off) * r.PerHour; math.Abs(n-3600) > 1e-6 {
		t.Errorf("%g starts of %v are not an hour", r.PerHour, r.On+r.Off)
	}
	// A closed tip: at rest.
	r, err = pump.Feed(soap, hose, &hydraulics.Outlet{Closed: true, Nozzles: []hydraulics.Nozzle{{Number: 2}}})
	if err != nil || r.Flow != 0 || r.Duty != 0 || r.PerHour != 0 {
		t.Errorf("closed tip: %+v, %v", r, err)
	}
}
