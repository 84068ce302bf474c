package fuel_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// TestPowerCurve_staysBetweenItsPoints is what monotone interpolation promises.
func TestPowerCurve_staysBetweenItsPoints(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		e, err := anyEngine(g)
		if err != nil {
			return err
		}
		points := e.Curve.Points()
		i := g.Int(0, len(points)-2)
		a, b := points[i], points[i+1]
		n := a.Speed + units.RotationalSpeed(g.Float(0, 1))*(b.Speed-a.Speed)
		p, err := e.Curve.PowerAt(n)
		if err != nil {
			return err
		}
		if lo, hi := min(a.Power, b.Power), max(a.Power, b.Power); p < lo*(1-1e-12) || p > hi*(1+1e-12) {
			return fmt.Errorf("%v at %v, between %v and %v", p, n, a, b)
		}
		torque, err := e.Curve.TorqueAt(n)
		if err != nil {
			return err
		}
		if math.Abs(float64(torque)*float64(n)/float64(p)-1) > 1e-12 {
			return fmt.Errorf("torque %v at %v makes another power than %v", torque, n, p)
		}
		for _, x := range points {
			if p, err := e.Curve.PowerAt(x.Speed); err != nil || math.Abs(float64(p/x.Power)-1) > 1e-12 {
				return fmt.Errorf("at its point %v the curve has %v, %v", x, p, err)
			}
		}
		return nil
	})
}

func TestPowerCurve_torqueRule(t *testing.T) {
	curve, err := fuel.NewPowerCurve([]fuel.PowerPoint{
		{Speed: 2400 * units.RPM, Power: 16 * units.Horsepower},
		{Speed: 3600 * units.RPM, Power: 23 * units.Horsepower},
	})
	if err != nil {
		t.Fatal(err)
	}
	got, err := curve.TorqueAt(3600 * units.RPM)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "23 hp at 3,600 rpm: what torque does the crankshaft give?",
		Source:   "shop rule lb·ft = 5252 hp/rpm",
		Status:   worked.CommonPractice,
		Given:    []string{"23 hp", "3,600 rpm"},
		Printed:  "33.55 lb·ft",
		Got:      got.In(units.FootPoundForce),
		// 33.55444 by the rule, printed to 0.005.
		Tolerance: 0.006, Reason: "the rule rounds 33,000/2π = 5252.113 to 5252, 0.0007 lb·ft here, and prints two decimals",
	})
}

func TestPowerCurve_badInput(t *testing.T) {
	rpm, kw := units.RPM, units.Kilowatt
	for _, c := range []struct {
		points []fuel.PowerPoint
		path   string
		kind   error
	}{
		{nil, "points", units.ErrMissing},
		{[]fuel.PowerPoint{{2000 * rpm, 10 * kw}}, "points", units.ErrMissing},
		{[]fuel.PowerPoint{{0, 10 * kw}, {3000 * rpm, 12 * kw}}, "points[0].speed", units.ErrMissing},
		{[]fuel.PowerPoint{{2000 * rpm, 10 * kw}, {3000 * rpm, 0}}, "points[1].power", units.ErrMissing},
		{[]fuel.PowerPoint{{2000 * rpm, 10 * kw}, {2000 * rpm, 12 * kw}}, "points[1].speed", units.ErrConflict},
		{[]fuel.PowerPoint{{2000 * rpm, 10 * kw}, {1000 * rpm, -12 * kw}}, "points[1].power", units.ErrRange},
		{[]fuel.PowerPoint{{2000 * rpm, 10 * kw}, {units.RotationalSpeed(math.NaN()), 12 * kw}}, "points[1].speed", units.ErrRange},
	} {
		got, err := fuel.NewPowerCurve(c.points)
		wantFieldError(t, c.path, err, c.path, c.kind)
		if got != nil {
			t.Errorf("a curve beside %v", err)
		}
	}
	c := straight(t).Curve
	for _, n := range []units.RotationalSpeed{0, 1999 * rpm, 3601 * rpm, units.RotationalSpeed(math.NaN())} {
		_, err := c.PowerAt(n)
		wantFieldError(t, "off the curve", err, "speed", units.ErrRange)
		_, err = c.TorqueAt(n)
		wantFieldError(t, "off the curve", err, "speed", units.ErrRange)
	}
	var none *fuel.PowerCurve
	_, err := none.PowerAt(3000 * rpm)
	wantFieldError(t, "no curve", err, "curve", units.ErrMissing)
	c.Points()[0].Power = 0
	if c.Points()[0].Power == 0 {
		t.Error("the caller can change the curve")
	}
	_, err = fuel.Governor{}.Rated()
	wantFieldError(t, "no governor", err, "noLoad", units.ErrMissing)
	rated, err := straight(t).Governor.Rated()
	if err != nil || math.Abs(rated.In(rpm)-3600) > 1e-9 {
		t.Errorf("rated speed %v, %v", rated, err)
	}
}
