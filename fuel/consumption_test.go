package fuel_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// anyConsumption draws a line or a table that some engine could have, with its
// full load.
func anyConsumption(g *property.G, p fuel.Properties) (fuel.Consumption, units.Power, error) {
	full := units.Power(g.LogFloat(1e3, 1e5))
	if g.Bool() {
		heat := full / units.Power(g.Float(0.15, 0.45))
		w := fuel.Willans{Rated: full, NoLoad: heat * units.Power(g.Float(0.05, 0.5)), FullLoad: heat}
		return w, full, nil
	}
	n := g.Int(2, 6)
	points := make([]fuel.ConsumptionPoint, n)
	none, slope := g.Float(0.1, 0.6), 1.
	load, heat := 0., none
	for i := range points {
		points[i] = fuel.ConsumptionPoint{Load: units.Power(load), Rate: units.FuelRate(heat)}
		step := g.Float(0.1, 1)
		slope = max(slope, 1) * g.Float(1.7, 2.5) / 2 // bent a little, upwards on the whole
		load += step
		heat += step * slope
	}
	last := points[n-1]
	for i := range points {
		points[i].Load *= full / last.Load
		// At full load 15 to 45 % of the heat.
		points[i].Rate *= units.FuelRate(float64(full)/0.3/float64(p.Lower)) / last.Rate
	}
	if g.Bool() && n > 2 {
		points = points[1:] // a table that does not begin without load
	}
	c, err := fuel.NewConsumptionCurve(points, p)
	if err != nil {
		return nil, 0, property.ErrDiscard
	}
	return c, c.Full(), nil
}

// TestBurn_closes: the energy in the fuel is the load and the loss, in the fuel's
// volume, in its mass and by its specific consumption.
func TestBurn_closes(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p := row(t, property.OneOf(g, fuel.Kinds()...))
		c, full, err := anyConsumption(g, p)
		if err != nil {
			return err
		}
		load := full * units.Power(g.Float(0, 1))
		b, err := c.Burn(load, p)
		if err != nil {
			return err
		}
		in, err := fuel.LowerInput(b.Rate, p.Lower)
		if err != nil {
			return err
		}
		sum := float64(in + b.Load + b.Loss)
		if math.Abs(float64(in-b.Load-b.Loss)) > 1e-12*sum || math.Abs(float64(b.Heat-in)) > 1e-12*sum {
			return fmt.Errorf("%v of fuel make %v of load and %v of loss: %+v", in, b.Load, b.Loss, b)
		}
		byMass := float64(b.Mass) * float64(p.Lower) / float64(p.Density)
		if math.Abs(byMass-float64(b.Heat)) > 1e-12*byMass {
			return fmt.Errorf("by mass %g W, by volume %v", byMass, b.Heat)
		}
		if !(b.Loss > 0) || !(b.Efficiency >= 0 && b.Efficiency <= 0.6) || math.Abs(float64(b.Efficiency)*float64(b.Heat)-float64(load)) > 1e-12*float64(b.Heat) {
			return fmt.Errorf("%+v", b)
		}
		if rate, err := fuel.SpecificRate(max(b.Specific, 1e-9), load, p); load > 0.2*full && (err != nil || math.Abs(float64(rate/b.Rate)-1) > 1e-9) {
			return fmt.Errorf("specific consumption %v makes %v, %v", b.Specific, rate, err)
		}
		return nil
	})
}

func TestBurn_risesWithLoad(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p := row(t, property.OneOf(g, fuel.Kinds()...))
		c, full, err := anyConsumption(g, p)
		if err != nil {
			return err
		}
		x := g.Float(0, 0.999)
		a, err := c.Burn(full*units.Power(x), p)
		if err != nil {
			return err
		}
		b, err := c.Burn(full*units.Power(g.Float(x+1e-3, 1)), p)
		if err != nil {
			return err
		}
		if !(b.Rate > a.Rate) {
			return fmt.Errorf("%v burns %v, %v burns %v", a.Load, a.Rate, b.Load, b.Rate)
		}
		long, err := fuel.RunTime(10*units.Gallon, a.Rate)
		if err != nil {
			return err
		}
		short, err := fuel.RunTime(10*units.Gallon, b.Rate)
		if err != nil {
			return err
		}
		if !(short < long) {
			return fmt.Errorf("the tank lasts %v at %v and %v at %v", long, a.Load, short, b.Load)
		}
		return nil
	})
}

// TestBurn_sameHeatInAnotherFuel: the volume follows the heating value.
func TestBurn_sameHeatInAnotherFuel(t *testing.T) {
	e0, e10 := row(t, fuel.GasolineE0), row(t, fuel.GasolineE10)
	w := fuel.Willans{Rated: 10 * units.Kilowatt, NoLoad: 12 * units.Kilowatt, FullLoad: 40 * units.Kilowatt}
	a, err := w.Burn(7*units.Kilowatt, e0)
	if err != nil {
		t.Fatal(err)
	}
	b, err := w.Burn(7*units.Kilowatt, e10)
	if err != nil {
		t.Fatal(err)
	}
	if a.Heat != b.Heat || math.Abs(float64(b.Rate/a.Rate)*float64(e10.Lower/e0.Lower)-1) > 1e-14 {
		t.Errorf("E0 %+v, E10 %+v", a, b)
	}
}

// TestFitWillans_findsItsLine: points of a line lead back to it, and a curve of
// two points is the line through them.
func TestFitWillans_findsItsLine(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p := row(t, property.OneOf(g, fuel.Kinds()...))
		full := units.Power(g.LogFloat(1e3, 1e5))
		heat := full / units.Power(g.Float(0.15, 0.45))
		w := fuel.Willans{Rated: full, NoLoad: heat * units.Power(g.Float(0.05, 0.5)), FullLoad: heat}
		points := make([]fuel.ConsumptionPoint, g.Int(2, 6))
		for i := range points {
			b, err := w.Burn(full*units.Power(i+1)/units.Power(len(points)), p)
			if err != nil {
				return err
			}
			points[i] = fuel.ConsumptionPoint{Load: b.Load, Rate: b.Rate}
		}
		fit, err := fuel.FitWillans(points, p)
		if err != nil {
			return err
		}
		two, err := fuel.WillansFromPlate(points[0], points[len(points)-1], p)
		if err != nil {
			return err
		}
		for _, v := range []fuel.Willans{fit.Willans, two} {
			if math.Abs(float64(v.NoLoad/w.NoLoad)-1) > 1e-9 || math.Abs(float64(v.FullLoad/w.FullLoad)-1) > 1e-9 || math.Abs(float64(v.Rated/w.Rated)-1) > 1e-12 {
				return fmt.Errorf("%+v became %+v", w, v)
			}
		}
		if fit.Worst > 1e-9 {
			return fmt.Errorf("worst difference %v", fit.Worst)
		}
		return nil
	})
}

func TestConsumptionCurve_passesItsPointsAndSaysWhereItEnds(t *testing.T) {
	p := row(t, fuel.Diesel2)
	_, tables := chart(t)
	for _, points := range tables {
		c, err := fuel.NewConsumptionCurve(points, p)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range points {
			b, err := c.Burn(x.Load, p)
			if err != nil || math.Abs(float64(b.Rate/x.Rate)-1) > 1e-12 || b.Extended {
				t.Errorf("at its point %v: %+v, %v", x, b, err)
			}
		}
		b, err := c.Burn(0, p)
		if err != nil || !b.Extended || !(b.Rate > 0) || b.Specific != 0 || b.Efficiency != 0 {
			t.Errorf("zero load: %+v, %v", b, err)
		}
		_, err = c.Burn(c.Full()*1.01, p)
		wantFieldError(t, "overload", err, "load", units.ErrRange)
	}
}

func TestTypicalConsumption_bands(t *testing.T) {
	for _, c := range []fuel.Class{fuel.SmallGasoline, fuel.SmallDiesel, fuel.SmallGas} {
		got, err := fuel.TypicalConsumption(c, 10*units.Kilowatt)
		if err != nil || got.Source == "" || got.Status.String() == "invalid" {
			t.Fatalf("%v: %+v, %v", c, got, err)
		}
		p := row(t, fuel.GasolineE0)
		for _, load := range []units.Power{0, 5e3, 10e3} {
			low, err1 := got.Low.Burn(load, p)
			usual, err2 := got.Usual.Burn(load, p)
			high, err3 := got.High.Burn(load, p)
			if err1 != nil || err2 != nil || err3 != nil || !(low.Rate < usual.Rate && usual.Rate < high.Rate) {
				t.Errorf("%v at %v: %v, %v, %v", c, load, low.Rate, usual.Rate, high.Rate)
			}
		}
	}
	// The bands as the doc prints them, from the sources it names: full load in
	// lb/(hp·h) of the class's own fuel, and the share of it without load.
	for _, c := range []struct {
		class  fuel.Class
		kind   fuel.Kind
		full   [3]float64
		noLoad [3]float64
	}{
		{fuel.SmallGasoline, fuel.GasolineE0, [3]float64{0.50, 0.55, 0.60}, [3]float64{0.20, 0.30, 0.38}},
		{fuel.SmallDiesel, fuel.Diesel2, [3]float64{0.38, 0.408, 0.44}, [3]float64{0.15, 0.20, 0.30}},
	} {
		got, err := fuel.TypicalConsumption(c.class, 10*units.Kilowatt)
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range []fuel.Willans{got.Low, got.Usual, got.High} {
			b, err := line.Burn(10*units.Kilowatt, row(t, c.kind))
			if err != nil {
				t.Fatal(err)
			}
			// The heat of a pound is rounded to 10 BTU of 18,000.
			if lb := b.Specific.In(units.PoundPerHorsepowerHour); math.Abs(lb/c.full[i]-1) > 3e-4 {
				t.Errorf("%v, line %d: %.4f lb/(hp·h), documented %g", c.class, i, lb, c.full[i])
			}
			if share := float64(line.NoLoad / line.FullLoad); math.Abs(share-c.noLoad[i]) > 1e-12 {
				t.Errorf("%v, line %d: %.4f without load, documented %g", c.class, i, share, c.noLoad[i])
			}
		}
	}
	for want, c := range map[string]fuel.Class{"not given": 0, "small gasoline engine": fuel.SmallGasoline, "small diesel engine": fuel.SmallDiesel, "small gas engine": fuel.SmallGas} {
		if c.String() != want {
			t.Errorf("%d is %q", c, c.String())
		}
	}
}

func TestConsumption_badInput(t *testing.T) {
	p := row(t, fuel.GasolineE10)
	gph, kw, nan := units.GallonPerHour, units.Kilowatt, math.NaN()
	good := fuel.Willans{Rated: 10 * kw, NoLoad: 12 * kw, FullLoad: 40 * kw}
	for _, c := range []struct {
		name string
		w    fuel.Willans
		load units.Power
		p    fuel.Properties
		path string
		kind error
	}{
		{"zero value", fuel.Willans{}, 0, p, "rated", units.ErrMissing},
		{"zero value", fuel.Willans{}, 0, p, "noLoad", units.ErrMissing},
		{"zero value", fuel.Willans{}, 0, p, "fullLoad", units.ErrMissing},
		{"falls", fuel.Willans{Rated: 10 * kw, NoLoad: 50 * kw, FullLoad: 40 * kw}, 0, p, "fullLoad", units.ErrConflict},
		{"perpetual", fuel.Willans{Rated: 10 * kw, NoLoad: 2 * kw, FullLoad: 9 * kw}, 0, p, "fullLoad", units.ErrConflict},
		{"overload", good, 11 * kw, p, "load", units.ErrRange},
		{"negative", good, -1, p, "load", units.ErrRange},
		{"not a number", good, units.Power(nan), p, "load", units.ErrRange},
		{"no fuel", good, 0, fuel.Properties{}, "fuel.lower", units.ErrMissing},
		{"no fuel", good, 0, fuel.Properties{}, "fuel.density", units.ErrMissing},
	} {
		got, err := c.w.Burn(c.load, c.p)
		wantFieldError(t, c.name, err, c.path, c.kind)
		if got != (fuel.Burn{}) {
			t.Errorf("%s: %+v beside an error", c.name, got)
		}
	}
	for _, c := range []struct {
		name   string
		points []fuel.ConsumptionPoint
		path   string
		kind   error
	}{
		{"none", nil, "points", units.ErrMissing},
		{"one", []fuel.ConsumptionPoint{{10 * kw, 1 * gph}}, "points", units.ErrMissing},
		{"no rate", []fuel.ConsumptionPoint{{5 * kw, 0}, {10 * kw, 1 * gph}}, "points[0].rate", units.ErrMissing},
		{"negative load", []fuel.ConsumptionPoint{{-5 * kw, 1 * gph}, {10 * kw, 2 * gph}}, "points[0].load", units.ErrRange},
		{"load falls", []fuel.ConsumptionPoint{{5 * kw, 1 * gph}, {5 * kw, 2 * gph}}, "points[1].load", units.ErrConflict},
		{"rate falls", []fuel.ConsumptionPoint{{5 * kw, 1 * gph}, {6 * kw, 0.9 * gph}}, "points[1].rate", units.ErrConflict},
		{"watts for kilowatts", []fuel.ConsumptionPoint{{0, 0.3 * gph}, {5000 * kw, 1 * gph}}, "points[1].rate", units.ErrConflict},
		{"no fuel without load", []fuel.ConsumptionPoint{{5 * kw, 0.8 * gph}, {10 * kw, 2 * gph}}, "points[0].rate", units.ErrConflict},
	} {
		got, err := fuel.NewConsumptionCurve(c.points, p)
		wantFieldError(t, c.name, err, c.path, c.kind)
		if got != nil {
			t.Errorf("%s: a curve beside an error", c.name)
		}
		path := c.path
		if c.name == "no fuel without load" {
			path = "points"
		}
		fit, err := fuel.FitWillans(c.points, p)
		wantFieldError(t, c.name, err, path, c.kind)
		if fit != (fuel.WillansFit{}) {
			t.Errorf("%s: %+v beside an error", c.name, fit)
		}
	}
	_, err := fuel.NewConsumptionCurve([]fuel.ConsumptionPoint{{0, 1 * gph}, {1 * kw, 2 * gph}}, fuel.Properties{})
	wantFieldError(t, "no fuel", err, "fuel.lower", units.ErrMissing)
	_, err = fuel.WillansFromPlate(fuel.ConsumptionPoint{Load: 5 * kw, Rate: 0.8 * gph}, fuel.ConsumptionPoint{Load: 10 * kw, Rate: 2 * gph}, p)
	wantFieldError(t, "no fuel without load", err, "points[0].rate", units.ErrConflict)
	var none *fuel.ConsumptionCurve
	_, err = none.Burn(0, p)
	wantFieldError(t, "no curve", err, "points", units.ErrMissing)
	if none.Full() != 0 {
		t.Error("no curve has a full load")
	}
	_, err = fuel.TypicalConsumption(0, 1e4)
	wantFieldError(t, "class", err, "class", units.ErrMissing)
	_, err = fuel.TypicalConsumption(9, 1e4)
	wantFieldError(t, "class", err, "class", units.ErrRange)
	_, err = fuel.TypicalConsumption(fuel.SmallDiesel, 0)
	wantFieldError(t, "class", err, "rated", units.ErrMissing)
	_, err = fuel.SpecificRate(0, 1e4, p)
	wantFieldError(t, "specific", err, "specific", units.ErrMissing)
	_, err = fuel.SpecificRate(0.5, -1, fuel.Properties{})
	wantFieldError(t, "specific", err, "specific", units.ErrRange)
	wantFieldError(t, "specific", err, "load", units.ErrRange)
	wantFieldError(t, "specific", err, "fuel.density", units.ErrMissing)
	_, err = fuel.IdleDown(nil, p, 3600*units.RPM, 1800*units.RPM)
	wantFieldError(t, "idle", err, "consumption", units.ErrMissing)
	_, err = fuel.IdleDown(good, p, 1800*units.RPM, 3600*units.RPM)
	wantFieldError(t, "idle", err, "idle", units.ErrConflict)
	_, err = fuel.IdleDown(good, p, 0, units.RotationalSpeed(nan))
	wantFieldError(t, "idle", err, "governed", units.ErrMissing)
	wantFieldError(t, "idle", err, "idle", units.ErrRange)
	_, err = fuel.IdleDown(good, fuel.Properties{}, 3600*units.RPM, 1800*units.RPM)
	wantFieldError(t, "idle", err, "fuel.lower", units.ErrMissing)
	_, err = fuel.Burner{Firing: -1, Duty: 55}.Average()
	wantFieldError(t, "burner", err, "firing", units.ErrRange)
	wantFieldError(t, "burner", err, "duty", units.ErrRange)
	_, err = fuel.FiringFor(-1, 0)
	wantFieldError(t, "burner", err, "input", units.ErrRange)
	wantFieldError(t, "burner", err, "higher", units.ErrMissing)
	if b, err := (fuel.Burner{}).Average(); err != nil || b != 0 {
		t.Errorf("a burner that is off uses %v, %v", b, err)
	}
}

func FuzzConsumptionCurve(f *testing.F) {
	f.Add(0.0, 3e-7, 5e3, 6e-7, 1e4, 1e-6, 7e3)
	f.Add(1e-300, 1e-300, 2e-300, 2e-300, 3e-300, 3e-300, 1e-300)
	f.Fuzz(func(t *testing.T, l1, r1, l2, r2, l3, r3, load float64) {
		p := row(t, fuel.Diesel2)
		points := []fuel.ConsumptionPoint{
			{units.Power(l1), units.FuelRate(r1)}, {units.Power(l2), units.FuelRate(r2)}, {units.Power(l3), units.FuelRate(r3)},
		}
		check := func(c fuel.Consumption) {
			b, err := c.Burn(units.Power(load), p)
			if err != nil {
				if b != (fuel.Burn{}) {
					t.Fatalf("%+v beside %v", b, err)
				}
				return
			}
			for _, x := range []float64{float64(b.Heat), float64(b.Loss), float64(b.Rate), float64(b.Mass), float64(b.Efficiency), float64(b.Specific)} {
				if !(x >= 0) || math.IsInf(x, 0) {
					t.Fatalf("%+v", b)
				}
			}
		}
		if c, err := fuel.NewConsumptionCurve(points, p); err == nil {
			check(c)
		}
		if fit, err := fuel.FitWillans(points, p); err == nil {
			check(fit.Willans)
			if !(fit.Worst >= 0) || math.IsInf(float64(fit.Worst), 0) {
				t.Fatalf("%+v", fit)
			}
		}
	})
}
