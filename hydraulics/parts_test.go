package hydraulics_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func TestWeakest(t *testing.T) {
	parts := []hydraulics.Part{
		{Name: "hose", MaxPressure: psi(4000), MaxTemperature: units.Fahrenheit(250)},
		{Name: "swivel", MaxPressure: psi(3600), MaxTemperature: units.Fahrenheit(200)},
		{Name: "gun", MaxPressure: psi(3600)},
		{Name: "strainer bowl", MaxTemperature: units.Fahrenheit(140)},
	}
	l := hydraulics.Weakest(parts)
	if l.Pressure.Name != "swivel" || l.Temperature.Name != "strainer bowl" {
		t.Errorf("weakest: %+v", l)
	}
	if fmt.Sprint(l.NoPressure) != "[strainer bowl]" || fmt.Sprint(l.NoTemperature) != "[gun]" {
		t.Errorf("unrated: %v, %v", l.NoPressure, l.NoTemperature)
	}
	if none := hydraulics.Weakest(nil); none.Pressure.Name != "" || none.NoPressure != nil {
		t.Errorf("weakest of nothing: %+v", none)
	}
}

func TestPathParts(t *testing.T) {
	n := twoGuns()
	parts, err := n.PathParts(2)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, p := range parts {
		names = append(names, p.Name)
	}
	if got := fmt.Sprint(names); got != "[sections[coil].elements[#1] hose gun]" {
		t.Errorf("path to the right gun: %s", got)
	}
	if _, err := n.PathParts(3); !errors.Is(err, units.ErrRange) {
		t.Errorf("a section that is not there: %v", err)
	}
}

func TestReel_capacity(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		r := hydraulics.Reel{Core: inch(g.Float(4, 20)), Width: inch(g.Float(4, 40))}
		r.Flange = r.Core + inch(g.Float(1, 20))
		d := inch(g.Float(0.4, 1.5))
		f, err := r.Fit(d, feet(g.LogFloat(10, 500)))
		if err != nil {
			return err
		}
		// Layer by layer.
		sum := 0.0
		for i := 1; i <= f.Layers; i++ {
			sum += math.Pi * float64(f.Turns) * (float64(r.Core) + (2*float64(i)-1)*float64(d))
		}
		if math.Abs(sum-float64(f.Capacity)) > 1e-9*sum {
			return fmt.Errorf("%d layers of %d turns hold %g m, Fit says %v", f.Layers, f.Turns, sum, f.Capacity)
		}
		if f.Spare >= 0 && f.Turns > 0 && (f.Used > f.Layers || f.Outside > r.Flange) {
			return fmt.Errorf("fits, but takes %d layers of %d and %v of %v", f.Used, f.Layers, f.Outside, r.Flange)
		}
		if f.Spare < 0 && f.Turns > 0 && f.Used <= f.Layers {
			return fmt.Errorf("does not fit, but takes %d layers of %d", f.Used, f.Layers)
		}
		// What just fits, fits.
		if f.Capacity > 0 {
			if again, err := r.Fit(d, f.Capacity); err != nil || again.Used != f.Layers || again.Spare != 0 {
				return fmt.Errorf("a hose of %v: %+v, %v", f.Capacity, again, err)
			}
		}
		return nil
	})
}

func TestPulleyPlan_bracket(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p := hydraulics.PulleyPlan{Motor: units.RotationalSpeed(g.Float(1000, 4000)) * units.RPM, Driven: inch(g.Float(4, 14)), Slip: units.Ratio(g.Float(0, 0.05)), Displacement: units.Volume(g.LogFloat(1e-6, 1e-4))}
		var stock []units.Length
		for range g.Int(1, 12) {
			stock = append(stock, inch(float64(g.Int(8, 40))/4))
		}
		want := gpm(g.LogFloat(1, 10))
		f, err := p.Fit(want, stock)
		if err != nil {
			return err
		}
		if math.Abs(float64(f.Exact.Flow/want)-1) > 1e-12 {
			return fmt.Errorf("exact pulley gives %v, want %v", f.Exact.Flow, want)
		}
		if f.Below.Driver == 0 && f.Above.Driver == 0 {
			return fmt.Errorf("no neighbour in %v of %v", stock, f.Exact.Driver)
		}
		belt := hydraulics.Belt{Driver: f.Exact.Driver, Driven: p.Driven, Slip: p.Slip}
		r, err := belt.At(p.Motor)
		if err != nil {
			return err
		}
		if math.Abs(float64(r.Driven/f.Exact.Speed)-1) > 1e-12 {
			return fmt.Errorf("belt drives at %v, plan says %v", r.Driven, f.Exact.Speed)
		}
		if f.Below.Driver > 0 && f.Below.Flow > want*(1+1e-9) || f.Above.Driver > 0 && f.Above.Flow < want*(1-1e-9) {
			return fmt.Errorf("neighbours %v and %v do not bracket %v", f.Below.Flow, f.Above.Flow, want)
		}
		return nil
	})
}

func TestLeakageAt(t *testing.T) {
	l, err := hydraulics.LeakageAt(gpm(7), 0.95, psi(3000))
	if err != nil {
		t.Fatal(err)
	}
	n := line(1000, 1e-3, 7, 1, 1, 0)
	n.Supplies[0].Leakage = l
	n.Supplies[0].Unloader = hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: psi(3000)}
	n.Sections[0].Outlet.Closed = true
	r, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(r.Supplies[0].Bypass/gpm(7)) - 0.95; math.Abs(got) > 1e-12 {
		t.Errorf("at its rated pressure the pump delivers %g more than 95 %%", got)
	}
}

// Every exported formula of a quantity answers nonsense with a FieldError and no number.
func TestNonsense(t *testing.T) {
	nan := math.NaN()
	for _, bad := range []float64{nan, math.Inf(1), math.Inf(-1), -1} {
		p, q, l, rho, v, r := units.Pressure(bad), units.VolumeFlow(bad), units.Length(bad), units.Density(bad), units.Velocity(bad), units.Ratio(bad)
		n := units.NozzleNumber(bad)
		for name, f := range map[string]func() (any, error){
			"NozzleFlow N":      func() (any, error) { return hydraulics.NozzleFlow(n, psi(1)) },
			"NozzleFlow p":      func() (any, error) { return hydraulics.NozzleFlow(4, p) },
			"NozzlePressure q":  func() (any, error) { return hydraulics.NozzlePressure(4, q) },
			"NozzleNumberFor p": func() (any, error) { return hydraulics.NozzleNumberFor(gpm(4), p) },
			"OrificeFlow d":     func() (any, error) { return hydraulics.OrificeFlow(l, 1, psi(1), 1000) },
			"OrificeFlow c":     func() (any, error) { return hydraulics.OrificeFlow(inch(1), bad, psi(1), 1000) },
			"NozzleBore":        func() (any, error) { return hydraulics.NozzleBore(n, 1) },
			"JetSpeed":          func() (any, error) { return hydraulics.JetSpeed(psi(1), rho) },
			"ReactionForce":     func() (any, error) { return hydraulics.ReactionForce(q, psi(1), 1000) },
			"HydraulicPower":    func() (any, error) { return hydraulics.HydraulicPower(gpm(1), p) },
			"ShaftPower":        func() (any, error) { return hydraulics.ShaftPower(gpm(1), psi(1), r, 1) },
			"WearAtLoss":        func() (any, error) { return hydraulics.WearAtLoss(r) },
			"LossAtWear":        func() (any, error) { return hydraulics.LossAtWear(r) },
			"SprayWidth":        func() (any, error) { return hydraulics.SprayWidth(units.Angle(bad), inch(1)) },
			"SplitNumber":       func() (any, error) { return hydraulics.SplitNumber(n, 2) },
			"Displacement":      func() (any, error) { return hydraulics.Plungers{Count: 3, Diameter: l, Stroke: inch(1)}.Displacement() },
			"PumpFlow":          func() (any, error) { return hydraulics.PumpFlow(1e-5, units.RotationalSpeed(bad), 1) },
			"PlateDisplacement": func() (any, error) { return hydraulics.PlateDisplacement(q, 100) },
			"LeakageAt":         func() (any, error) { return hydraulics.LeakageAt(q, 0.9, psi(1)) },
			"Belt":              func() (any, error) { return hydraulics.Belt{Driver: l, Driven: inch(4)}.At(100) },
			"GearedSpeed":       func() (any, error) { return hydraulics.GearedSpeed(100, bad) },
			"WaveSpeed":         func() (any, error) { return hydraulics.WaveSpeed(p, 1000, 1, 1, 1e9) },
			"HoseWaveSpeed":     func() (any, error) { return hydraulics.HoseWaveSpeed(2.2e9, 1000, 0.01, 1, 1e-6, p) },
			"Joukowsky":         func() (any, error) { return hydraulics.Joukowsky(1000, v, 1) },
			"SlowClosing":       func() (any, error) { return hydraulics.SlowClosing(1000, l, 1, 1) },
			"TriggerSurge": func() (any, error) {
				return hydraulics.TriggerSurge(hydraulics.Closing{Density: 1000, Speed: v, Length: 10})
			},
			"Reel": func() (any, error) {
				return hydraulics.Reel{Core: l, Flange: inch(20), Width: inch(10)}.Fit(inch(1), feet(10))
			},
			"Dilution":      func() (any, error) { return hydraulics.Dilution(r, gpm(1), gpm(1)) },
			"HazenWilliams": func() (any, error) { return hydraulics.HazenWilliams(gpm(1), l, feet(1), 140) },
			"CvOfK":         func() (any, error) { return hydraulics.CvOfK(bad, inch(1)) },
			"KOfCv":         func() (any, error) { return hydraulics.KOfCv(1, l) },
			"Ladder": func() (any, error) {
				return hydraulics.Ladder(p, hydraulics.Unloader{}, hydraulics.Relief{}, gpm(1), 0)
			},
		} {
			if v, err := f(); err == nil || !errors.As(err, new(*units.FieldError)) {
				t.Errorf("%s of %g: %v, %v", name, bad, v, err)
			}
		}
	}
}
