package fuel_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// anyEngine draws an engine with a curve of a few points that may peak anywhere.
func anyEngine(g *property.G) (fuel.Engine, error) {
	points := make([]fuel.PowerPoint, g.Int(2, 6))
	n := g.Float(1200, 2000)
	for i := range points {
		points[i] = fuel.PowerPoint{Speed: units.RotationalSpeed(n) * units.RPM, Power: units.Power(g.Float(5, 25)) * units.Kilowatt}
		n += g.Float(200, 800)
	}
	curve, err := fuel.NewPowerCurve(points)
	droop := g.Float(0, 0.1)
	rated := curve.Lowest() + units.RotationalSpeed(g.Float(0.4, 1))*(curve.Highest()-curve.Lowest())
	return fuel.Engine{
		Gross: 20 * units.Kilowatt, Net: 18 * units.Kilowatt, Continuous: 0.9, Plate: common, Curve: curve,
		Governor: fuel.Governor{NoLoad: rated * units.RotationalSpeed(1+droop), Droop: units.Ratio(droop)},
	}, err
}

func anyDemands(g *property.G, most float64) []fuel.Demand {
	demands := make([]fuel.Demand, g.Int(0, 4))
	for i := range demands {
		demands[i] = fuel.Demand{Shaft: units.Power(g.Float(0, most)) * units.Kilowatt, Exponent: property.OneOf(g, 0., 1, 3, 2.5)}
	}
	return demands
}

// TestSettle_closes checks the answer against the curve and the demands, from
// their definitions: power in is power out at the speed returned, no higher
// speed carries the demands, and a stall has no speed that does.
func TestSettle_closes(t *testing.T) {
	stalls, lugs := 0, 0
	property.Check(t, func(g *property.G) error {
		e, err := anyEngine(g)
		if err != nil {
			return err
		}
		s := site(g.Float(-1000, 10_000), g.Float(0, 110))
		demands := anyDemands(g, 12)
		got, err := e.Settle(s, demands)
		if err != nil {
			return err
		}
		a, err := e.Available(s)
		if err != nil {
			return err
		}
		nr := min(e.Governor.NoLoad/units.RotationalSpeed(1+e.Governor.Droop), e.Curve.Highest())
		give := func(n units.RotationalSpeed) float64 {
			if n > nr {
				top, _ := e.Curve.PowerAt(nr)
				return 0.9 * float64(a.Factor) * float64(top) * float64((e.Governor.NoLoad-n)/(e.Governor.NoLoad-nr))
			}
			p, _ := e.Curve.PowerAt(n)
			return 0.9 * float64(a.Factor) * float64(p)
		}
		need := func(n units.RotationalSpeed) (sum float64) {
			for _, d := range demands {
				sum += float64(d.Shaft) * math.Pow(float64(n/nr), d.Exponent)
			}
			return sum
		}
		if math.Abs(float64(got.Rated/nr)-1) > 1e-12 {
			return fmt.Errorf("rated speed %v, want %v", got.Rated, nr)
		}
		from := e.Curve.Lowest()
		if got.Stalls {
			stalls++
			if got.Speed != 0 || got.Power != 0 || !(got.Deficit > 0) {
				return fmt.Errorf("stalled: %+v", got)
			}
			if d := need(got.At) - give(got.At); math.Abs(d-float64(got.Deficit)) > 1e-6*float64(got.Deficit)+1e-6 {
				return fmt.Errorf("deficit %v at %v, want %g W", got.Deficit, got.At, d)
			}
		} else {
			if got.Lugs() {
				lugs++
			}
			if got.Speed < from || got.Speed > e.Governor.NoLoad || got.Deficit != 0 {
				return fmt.Errorf("%+v", got)
			}
			// The speed is known to 1e-12 of itself, power on the governor is as
			// steep as 1/droop of that.
			isochronous := e.Governor.Droop < 1e-9
			if p := give(got.Speed); !isochronous && math.Abs(p-need(got.Speed)) > 1e-6*(p+1) {
				return fmt.Errorf("at %v the engine gives %g and the demands take %g W", got.Speed, p, need(got.Speed))
			}
			if math.Abs(float64(got.Power)-need(got.Speed)) > 1e-9*(float64(got.Power)+1) {
				return fmt.Errorf("power %v, the demands take %g W", got.Power, need(got.Speed))
			}
			from = got.Speed
		}
		for i := range 401 {
			n := from + (nr-from)*units.RotationalSpeed(i)/400
			if n <= from*(1+1e-9) && !got.Stalls {
				continue
			}
			if short := need(n) - give(n); short < -1e-6*need(n) {
				return fmt.Errorf("%+v, but %v carries the demands", got, n)
			} else if got.Stalls && short < float64(got.Deficit)*(1-1e-6) {
				return fmt.Errorf("%+v, but only %g W are missing at %v", got, short, n)
			}
		}
		return nil
	})
	if stalls == 0 || lugs == 0 {
		t.Errorf("%d stalls and %d settlings below the rated speed were drawn", stalls, lugs)
	}
}

func TestSettle_slowsUnderLoad(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		e, err := anyEngine(g)
		if err != nil {
			return err
		}
		demands := anyDemands(g, 6)
		a, err := e.Settle(site(0, 77), demands)
		if err != nil {
			return err
		}
		more := append(demands, fuel.Demand{Shaft: units.Power(g.Float(0.01, 5)) * units.Kilowatt, Exponent: 1})
		b, err := e.Settle(site(0, 77), more)
		if err != nil {
			return err
		}
		if a.Stalls && !b.Stalls || b.Speed > a.Speed || b.Deficit < a.Deficit {
			return fmt.Errorf("%+v, with more load %+v", a, b)
		}
		return nil
	})
}

func TestSettle_edges(t *testing.T) {
	e := straight(t)
	got, err := e.Settle(site(0, 77), nil)
	if err != nil || got.Speed != 3750*units.RPM || got.Power != 0 || got.Throttle != 0 || got.Stalls || got.Lugs() {
		t.Errorf("zero load: %+v, %v", got, err)
	}
	all := []fuel.Demand{{Shaft: 18 * units.Kilowatt}}
	got, err = e.Settle(site(0, 77), all)
	if err != nil || math.Abs(got.Speed.In(units.RPM)-3600) > 1e-6 || got.Stalls || math.Abs(float64(got.Throttle)-1) > 1e-9 {
		t.Errorf("exactly all: %+v, %v", got, err)
	}
	got, err = e.Settle(site(5000, 77), all)
	if err != nil || got.Stalls {
		t.Errorf("a plate that takes nothing: %+v, %v", got, err)
	}
	e.Plate = common
	got, err = e.Settle(site(5000, 77), all)
	if want := 18e3 * 0.035 * 5; err != nil || !got.Stalls || math.Abs(float64(got.Deficit)-want) > 1e-6 || got.At != got.Rated {
		t.Errorf("at 5,000 ft: %+v, %v, want %g W missing", got, err, want)
	}
	e = straight(t)
	e.Governor.Droop = 0.04 // as a sheet rounds 150/3600: 3,606 rpm, and the curve ends at 3,600
	if got, err = e.Settle(site(0, 77), all); err != nil || got.Rated != 3600*units.RPM || got.Stalls {
		t.Errorf("rounded droop: %+v, %v", got, err)
	}
	e.Governor = fuel.Governor{NoLoad: 3600 * units.RPM}
	got, err = e.Settle(site(0, 77), all)
	if err != nil || got.Speed != 3600*units.RPM || got.Throttle != 1 {
		t.Errorf("isochronous: %+v, %v", got, err)
	}
}

// TestSettle_narrowCrest is a curve with a hump that carries the load over a few
// revolutions only.
func TestSettle_narrowCrest(t *testing.T) {
	curve, err := fuel.NewPowerCurve([]fuel.PowerPoint{
		{Speed: 1000 * units.RPM, Power: 5 * units.Kilowatt},
		{Speed: 2001 * units.RPM, Power: 10 * units.Kilowatt},
		{Speed: 3600 * units.RPM, Power: 6 * units.Kilowatt},
	})
	if err != nil {
		t.Fatal(err)
	}
	e := fuel.Engine{Gross: 10 * units.Kilowatt, Continuous: 1, Curve: curve, Governor: fuel.Governor{NoLoad: 3600 * units.RPM}}
	got, err := e.Settle(site(0, 77), []fuel.Demand{{Shaft: 9.99999 * units.Kilowatt}})
	if err != nil || got.Stalls || math.Abs(got.Speed.In(units.RPM)-2001) > 10 {
		t.Errorf("%+v, %v", got, err)
	}
	got, err = e.Settle(site(0, 77), []fuel.Demand{{Shaft: 10.00001 * units.Kilowatt}})
	if err != nil || !got.Stalls || math.Abs(float64(got.Deficit)-0.01) > 1e-4 {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestSettle_badInput(t *testing.T) {
	e := straight(t)
	nan := math.NaN()
	for _, c := range []struct {
		name    string
		change  func(*fuel.Engine)
		demands []fuel.Demand
		path    string
		kind    error
	}{
		{"no curve", func(e *fuel.Engine) { e.Curve = nil }, nil, "engine.curve", units.ErrMissing},
		{"zero curve", func(e *fuel.Engine) { e.Curve = new(fuel.PowerCurve) }, nil, "engine.curve", units.ErrMissing},
		{"no governor", func(e *fuel.Engine) { e.Governor = fuel.Governor{} }, nil, "engine.governor.noLoad", units.ErrMissing},
		{"droop in percent", func(e *fuel.Engine) { e.Governor.Droop = 4 }, nil, "engine.governor.droop", units.ErrRange},
		{"governor off the curve", func(e *fuel.Engine) { e.Governor.NoLoad = 5000 * units.RPM }, nil, "engine.governor.noLoad", units.ErrConflict},
		{"governor just off the curve", func(e *fuel.Engine) { e.Governor.NoLoad, e.Governor.Droop = 3750*units.RPM, 0.02 }, nil, "engine.governor.noLoad", units.ErrConflict},
		{"no rating", func(e *fuel.Engine) { e.Gross = 0 }, nil, "engine.gross", units.ErrMissing},
		{"demand", func(*fuel.Engine) {}, []fuel.Demand{{Shaft: units.Power(nan)}}, "demands[0].shaft", units.ErrRange},
		{"exponent", func(*fuel.Engine) {}, []fuel.Demand{{}, {Exponent: nan}}, "demands[1].exponent", units.ErrRange},
		{"exponent", func(*fuel.Engine) {}, []fuel.Demand{{Exponent: -1}}, "demands[0].exponent", units.ErrRange},
	} {
		x := e
		c.change(&x)
		got, err := x.Settle(site(0, 77), c.demands)
		wantFieldError(t, c.name, err, c.path, c.kind)
		if got != (fuel.Settling{}) {
			t.Errorf("%s: %+v beside an error", c.name, got)
		}
	}
}

func FuzzSettle(f *testing.F) {
	f.Add(2000.0, 12e3, 3000.0, 19e3, 3600.0, 18e3, 3750.0, 0.04, 15e3, 1.0, 4e3, 0.0)
	f.Add(1000.0, 1.0, 1001.0, 1e6, 1002.0, 1.0, 1001.0, 0.0, 5e5, 0.0, 0.0, 3.0)
	f.Fuzz(func(t *testing.T, n1, p1, n2, p2, n3, p3, n0, droop, d1, k1, d2, k2 float64) {
		curve, err := fuel.NewPowerCurve([]fuel.PowerPoint{
			{Speed: units.RotationalSpeed(n1) * units.RPM, Power: units.Power(p1)},
			{Speed: units.RotationalSpeed(n2) * units.RPM, Power: units.Power(p2)},
			{Speed: units.RotationalSpeed(n3) * units.RPM, Power: units.Power(p3)},
		})
		if err != nil {
			return
		}
		e := fuel.Engine{Gross: 1e4, Continuous: 1, Curve: curve, Governor: fuel.Governor{NoLoad: units.RotationalSpeed(n0) * units.RPM, Droop: units.Ratio(droop)}}
		got, err := e.Settle(site(0, 77), []fuel.Demand{{Shaft: units.Power(d1), Exponent: k1}, {Shaft: units.Power(d2), Exponent: k2}})
		if err != nil {
			if got != (fuel.Settling{}) {
				t.Fatalf("%+v beside %v", got, err)
			}
			return
		}
		for _, x := range []float64{float64(got.Speed), float64(got.Power), float64(got.Rated), float64(got.Full), float64(got.Throttle), float64(got.Deficit), float64(got.At)} {
			if !(x >= 0) || math.IsInf(x, 0) {
				t.Fatalf("%+v", got)
			}
		}
		if got.Stalls != (got.Speed == 0) || got.Stalls != (got.Deficit > 0) || got.Throttle > 1 {
			t.Fatalf("%+v", got)
		}
	})
}

func BenchmarkSettle(b *testing.B) {
	curve, err := fuel.NewPowerCurve([]fuel.PowerPoint{
		{Speed: 2000 * units.RPM, Power: 12 * units.Kilowatt},
		{Speed: 3000 * units.RPM, Power: 17 * units.Kilowatt},
		{Speed: 3600 * units.RPM, Power: 18 * units.Kilowatt},
	})
	if err != nil {
		b.Fatal(err)
	}
	e := fuel.Engine{Gross: 18 * units.Kilowatt, Continuous: 0.9, Plate: common, Curve: curve, Governor: fuel.Governor{NoLoad: 3750 * units.RPM, Droop: 150. / 3600}}
	s := site(5200, 95)
	for _, c := range []struct {
		name string
		pump units.Power
	}{{"governed", 8}, {"lugging", 14}, {"stalled", 30}} {
		b.Run(c.name, func(b *testing.B) {
			demands := []fuel.Demand{{Shaft: c.pump * units.Kilowatt, Exponent: 1}, {Shaft: 1 * units.Kilowatt}}
			for b.Loop() {
				if _, err := e.Settle(s, demands); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
