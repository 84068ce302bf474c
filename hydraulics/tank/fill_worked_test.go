package tank_test

import (
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestSupply_flowTest(t *testing.T) {
	s := tank.Supply{Static: 86 * units.PSI, Residual: 42 * units.PSI, Flow: 789 * units.GallonPerMinute}
	q := must[units.VolumeFlow](t)(s.FlowAt(20 * units.PSI))
	source := "T. Kolb, Water Supply, course notes on hydrant flow tests, slides 15 and 16, after NFPA 291"
	given := []string{"static 86 psi", "residual 42 psi at 789 gpm"}
	worked.Check(t, worked.Case{
		Question: "How much does the hydrant give at 20 psi?", Source: source, Status: worked.Published,
		Given: given, Printed: "980 gpm", Got: q.In(units.GallonPerMinute),
		Tolerance: 5, Reason: "read off a graph, to ten gpm",
	})
	p := must[units.Pressure](t)(s.PressureAt(500 * units.GallonPerMinute))
	worked.Check(t, worked.Case{
		Question: "And what pressure is left at 500 gpm?", Source: source, Status: worked.Published,
		Given: given, Printed: "67 psi", Got: p.In(units.PSI),
	})
	// 0.54 is 1/1.85 rounded: 0.1 % of the exponent, 0.04 % of the flow here.
	left := must[units.Pressure](t)(s.PressureAt(q))
	near(t, "pressure at that flow", float64(left), float64(20*units.PSI), 0.002)
}

func TestSupply_hydrantOutlet(t *testing.T) {
	// The pitot reading that gives the 789 gpm, by the orifice of package hydraulics.
	q := must[units.VolumeFlow](t)(hydraulics.OrificeFlow(2.5*units.Inch, 0.8, 28*units.PSI, cold.Density))
	worked.Check(t, worked.Case{
		Question: "A pitot gauge in a 2-1/2 in hydrant outlet says 28 psi: how much runs?", Source: "T. Kolb, Water Supply, slide 15, after NFPA 291", Status: worked.Published,
		Given: []string{"28 psi", "2-1/2 in", "C = 0.8"}, Printed: "789 gpm", Got: q.In(units.GallonPerMinute),
	})
}

// garden is a hose from a bibb that holds its pressure.
func garden(bore units.Length, more ...hydraulics.Element) tank.Filling {
	return tank.Filling{Supply: tank.Supply{Static: 40 * units.PSI}, Fluid: cold,
		Line: append([]hydraulics.Element{hydraulics.Hose{Bore: bore, Length: 75 * units.Foot}}, more...)}
}

func TestFilling_gardenHose(t *testing.T) {
	for _, c := range []struct{ bore, printed string }{{"5/8 in", "13.7639 gpm"}, {"3/4 in", "22.4397 gpm"}} {
		f := must[*tank.FillFlow](t)(garden(units.MustParseLength(c.bore)).Flow())
		worked.Check(t, worked.Case{
			Question: "75 ft of smooth garden hose lose 40 psi: how much comes?", Source: "fluids 1.0.22, Colebrook, water at 60 °F", Status: worked.Computed,
			Given: []string{c.bore, "75 ft", "40 psi"}, Printed: c.printed, Got: f.Flow.In(units.GallonPerMinute),
		})
	}
}

// A meter, a backflow device and a climb take their part before the hose does.
func TestFilling_withDevice(t *testing.T) {
	f := garden(5*units.Inch/8, hydraulics.CheckValve{Cracking: 8 * units.PSI}, hydraulics.RatedLoss{Flow: 20 * units.GallonPerMinute, Pressure: 5 * units.PSI})
	f.Lift = 4 * units.Foot
	r := must[*tank.FillFlow](t)(f.Flow())
	bare := must[*tank.FillFlow](t)(garden(5 * units.Inch / 8).Flow())
	sum := r.Lift
	for _, p := range r.Elements {
		sum += p
	}
	worked.Check(t, worked.Case{
		Question: "Where do the 40 psi of the bibb go?", Source: "the losses add up to what the bibb gives", Status: worked.Identity,
		Given: []string{"75 ft of 5/8 in hose", "device opening at 8 psi", "meter 5 psi at 20 gpm", "4 ft up"}, Printed: "40.00000 psi", Got: sum.In(units.PSI),
	})
	if !(r.Flow < bare.Flow) {
		t.Errorf("%v with the device, %v without", r.Flow, bare.Flow)
	}
}

// A long pipe against a pipe network engine: its friction is Swamee and Jain's and
// its water has 1.1e-5 ft²/s.
func TestFilling_networkEngine(t *testing.T) {
	water := hydraulics.Fluid{Density: 998.2, Viscosity: units.DynamicViscosity(998.2 * 1.1e-5 * 0.3048 * 0.3048)}
	head := 137.3713201 * 0.3048
	f := tank.Filling{Supply: tank.Supply{Static: units.Pressure(head * 998.2 * float64(units.StandardGravity))}, Fluid: water,
		Line: []hydraulics.Element{hydraulics.Pipe{Bore: 2.067 * units.Inch, Length: 1000 * units.Foot, Roughness: 0.005e-3 * units.Foot}}}
	r := must[*tank.FillFlow](t)(f.Flow())
	worked.Check(t, worked.Case{
		Question: "A head of 137.4 ft over 1,000 ft of 2 in supply pipe: what comes?", Source: "EPANET engine 2.3.5, Darcy–Weisbach, one pipe", Status: worked.Computed,
		Given: []string{"2.067 in", "1000 ft", "roughness 0.005e-3 ft", "h = 137.3713201 ft"}, Printed: "100 gpm", Got: r.Flow.In(units.GallonPerMinute),
		Tolerance: 0.5, Reason: "the engine takes the friction factor of Swamee and Jain, up to 1 % from Colebrook's in this range, and the flow goes with its square root",
	})
}

func TestFillTrend_losingGround(t *testing.T) {
	// Two guns at 55 % of 6.8 gpm use 3.74; a bibb of 3 gpm loses 0.74 gpm, 44.4 gal an hour.
	tr := must[tank.Trend](t)(tank.FillTrend(3*units.GallonPerMinute, 6.8*units.GallonPerMinute, 0.55, 200*units.Gallon, 232*units.Gallon))
	worked.Check(t, worked.Case{
		Question: "A bibb gives 3 gpm while two guns wash: does the tank hold?", Source: "3 − 0.55 · 6.8, by hand", Status: worked.Identity,
		Given: []string{"3 gpm", "6.8 gpm", "55 % trigger time"}, Printed: "-0.74 gpm", Got: tr.Rate.In(units.GallonPerMinute),
	})
	worked.Check(t, worked.Case{
		Question: "And when are 200 gal gone?", Source: "200/0.74, by hand", Status: worked.Identity,
		Given: []string{"200 gal", "-0.74 gpm"}, Printed: "270.3 min", Got: tr.ToEmpty.In(units.Minute),
	})
	up := must[tank.Trend](t)(tank.FillTrend(13.4*units.GallonPerMinute, 6.8*units.GallonPerMinute, 0.55, 100*units.Gallon, 232*units.Gallon))
	worked.Check(t, worked.Case{
		Question: "With 13.4 gpm: when is the tank full?", Source: "(232 − 100)/(13.4 − 3.74), by hand", Status: worked.Identity,
		Given: []string{"100 of 232 gal", "13.4 gpm", "6.8 gpm at 55 %"}, Printed: "13.66 min", Got: up.ToFull.In(units.Minute),
	})
	if m := tr.ToEmpty.In(units.Minute); m < 100 {
		t.Errorf("empty in %.0f min: the guns were counted as if they never let go", m)
	}
}

func TestAirGap_code(t *testing.T) {
	for _, c := range []struct {
		bore, printed string
		wall          bool
	}{
		{"1/2 in", "1 in", false}, {"1/2 in", "1.5 in", true}, {"3/4 in", "1.5 in", false},
		{"2 in", "4 in", false}, {"2 in", "6 in", true},
	} {
		g := must[units.Length](t)(tank.AirGap(units.MustParseLength(c.bore), c.wall))
		given := "away from a wall"
		if c.wall {
			given = "close to a wall"
		}
		worked.Check(t, worked.Case{
			Question: "How far above the rim must the fill pipe end?", Source: "International Residential Code, Table P2902.2.1 (2003), with its two and three times the opening above 1 in", Status: worked.Published,
			Given: []string{c.bore, given}, Printed: c.printed, Got: g.In(units.Inch),
		})
	}
}

func TestFlushVolume_byHand(t *testing.T) {
	v := must[units.Volume](t)(tank.FlushVolume(100*units.Gallon, 1, 0.01))
	worked.Check(t, worked.Case{
		Question: "100 gal of recovered water stand in the clean tank: how much must run through until a hundredth is left?", Source: "V ln(100), by hand", Status: worked.Identity,
		Given: []string{"100 gal", "from 100 % to 1 %"}, Printed: "460.5 gal", Got: v.In(units.Gallon),
	})
}

// A hydrant at the end of a long main: what the main loses goes with the flow to the
// power of Hazen and Williams, so one reading tells all.
func TestSupply_hazenWilliams(t *testing.T) {
	loss := must[units.Pressure](t)(hydraulics.HazenWilliams(50*units.GallonPerMinute, 2.067*units.Inch, 1000*units.Foot, 120))
	s := tank.Supply{Static: 110 * units.PSI, Residual: 110*units.PSI - loss, Flow: 50 * units.GallonPerMinute}
	p := must[units.Pressure](t)(s.PressureAt(100 * units.GallonPerMinute))
	worked.Check(t, worked.Case{
		Question: "1,000 ft of 2 in main feed the hydrant: what is left of 110 psi at 100 gpm?", Source: "EPANET engine 2.3.5, Hazen–Williams: 217.2465523 ft lost, at 0.4333 psi/ft", Status: worked.Computed,
		Given: []string{"C = 120", "2.067 in", "1000 ft", "110 psi"}, Printed: "15.9 psi", Got: p.In(units.PSI),
		Tolerance: 0.28, Reason: "the psi form of NFPA 13 and the engine's form differ by 0.2 % of the 94 psi lost, besides the printed digit",
	})
}
