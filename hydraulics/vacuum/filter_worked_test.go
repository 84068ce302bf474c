package vacuum_test

import (
	"math"
	"testing"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestFilter_scaling(t *testing.T) {
	w := vacuum.Liquid{Density: 998, Viscosity: 1 * units.Centipoise, SurfaceTension: 0.072}
	heavy, thick := w, w
	heavy.Density *= 1.1
	thick.Viscosity *= 2
	screen := vacuum.Filter{Flow: gpm(10), Clean: psi(2), Dirty: psi(2), Liquid: w}
	cake := vacuum.Filter{Flow: gpm(10), Clean: psi(2), Dirty: psi(8), Linear: 1, Liquid: w}
	for _, c := range []struct {
		question, given, printed string
		f                        vacuum.Filter
		l                        vacuum.Liquid
		loaded                   units.Ratio
	}{
		{"A screen that loses 2 psi at 10 gpm: what at 6 gpm?", "turbulent", "0.72 psi", screen, w, 0},
		{"And with brine a tenth heavier?", "turbulent, SG 1.1", "0.792 psi", screen, heavy, 0},
		{"A fine cartridge that loses 2 psi at 10 gpm: what at 6 gpm?", "laminar", "1.2 psi", cake, w, 0},
		{"And with water twice as thick, as near freezing?", "laminar, twice the viscosity", "2.4 psi", cake, thick, 0},
		{"And at its change-out of 8 psi at 10 gpm?", "cake in proportion to flow", "4.8 psi", cake, w, 1},
		{"And halfway there?", "half the dirt", "3.0 psi", cake, w, 0.5},
	} {
		worked.Check(t, worked.Case{
			Question: c.question, Source: "Δp ∝ ρ q² where turbulent, μ q where laminar (Darcy)", Status: worked.Identity,
			Given: []string{c.given}, Printed: c.printed, Got: must(c.f.Loss(gpm(6), c.l, c.loaded))(t).In(units.PSI),
			Tolerance: 1e-12, Reason: "the arithmetic is exact",
		})
	}
}

func TestScreenCoefficient_Blevins(t *testing.T) {
	const source = "R. D. Blevins, Applied Fluid Dynamics Handbook, 1984, as the documentation of the open-source library fluids prints it"
	for _, c := range []struct {
		given, printed string
		got            float64
		tol            float64
	}{
		{"half open, square edges", "3.8", vacuum.ScreenCoefficient(0.5), 1e-12},
		{"0.99 open, square edges", "0.008", vacuum.ScreenCoefficient(0.99), 1e-12},
		{"half open, round wire, Re = 100", "2.1", vacuum.WireScreenCoefficient(0.5, 100), 1e-12},
	} {
		worked.Check(t, worked.Case{Question: "How many velocity heads does a screen cost?", Source: source, Status: worked.Published,
			Given: []string{c.given}, Printed: c.printed, Got: c.got, Tolerance: c.tol, Reason: "points of the table itself"})
	}
	if r := vacuum.ScreenCoefficient(0.25) / vacuum.ScreenCoefficient(0.5); math.Abs(r-7.9) > 0.05 {
		t.Errorf("blinding half of a half-open screen costs %.2f times, written down 8", r)
	}
}

func TestTrain_gauges(t *testing.T) {
	w := coldWater(t)
	tr := train(t)
	// 10 gpm, new: 0.5 and 1 psi; at change-out 3 and 4 psi; 2 psi behind.
	for _, c := range []struct {
		what   string
		loaded []units.Ratio
		want   []float64
	}{{"new", nil, []float64{3.5, 3, 2}}, {"at change-out", []units.Ratio{1, 1}, []float64{9, 6, 2}}, {"bag at change-out", []units.Ratio{1, 0}, []float64{6, 3, 2}}} {
		got := must(tr.Gauges(gpm(10), w, c.loaded, psi(2)))(t)
		for i, want := range c.want {
			if g := got[i].In(units.PSI); math.Abs(g-want) > 1e-9 {
				t.Errorf("%s, gauge %d: %.6f psi, want %.6f", c.what, i+1, g, want)
			}
		}
	}
	worked.Check(t, worked.Case{
		Question: "What should the gauge before the bag read now, and when do I change it?",
		Source:   "sum of the losses; the readings are the plates' own at 10 gpm", Status: worked.Identity,
		Given:   []string{"bag 0.5 psi new, 3 psi at change-out; cartridge 1 and 4 psi; 2 psi behind", "10 gpm, both at change-out"},
		Printed: "9 psi", Got: must(tr.Gauges(gpm(10), w, []units.Ratio{1, 1}, psi(2)))(t)[0].In(units.PSI), Tolerance: 1e-9, Reason: "the arithmetic is exact",
	})
}

// 0.5 lb of dirt an hour: the bag keeps 0.4 lb and lasts 5/0.4 = 12.5 h; 0.1 lb goes
// on, the cartridge keeps 0.07 lb and lasts 1/0.07 = 14.3 h.
func TestTrain_intervals(t *testing.T) {
	iv := must(train(t).Intervals(0.5 * units.PoundPerHour))(t)
	worked.Check(t, worked.Case{Question: "How many hours does the bag last?", Source: "capacity over what it keeps", Status: worked.Identity,
		Given: []string{"0.5 lb/h of dirt", "bag: holds 5 lb, keeps 80 %"}, Printed: "12.5 h", Got: iv[0].Lasts.In(units.Hour), Tolerance: 1e-9, Reason: "the arithmetic is exact"})
	worked.Check(t, worked.Case{Question: "And the cartridge behind it?", Source: "capacity over what it keeps", Status: worked.Identity,
		Given: []string{"0.1 lb/h arrives", "holds 1 lb, keeps 70 %"}, Printed: "14.3 h", Got: iv[1].Lasts.In(units.Hour)})
	sum := iv[0].Keeps + iv[1].Keeps + units.MassFlow(float64(iv[1].Arrives)*0.3)
	if d := float64(sum/(0.5*units.PoundPerHour)) - 1; math.Abs(d) > 1e-12 {
		t.Errorf("of the dirt %.3g is lost", d)
	}
}
