package electrical_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/property"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// A vacuum motor at nine tenths of its voltage. No printed example of a fan on a
// series motor was found: the answer follows from the two laws of the motor and
// the fan law, and the test below solves them from another side.
func TestSeriesFan_worked(t *testing.T) {
	st, err := electrical.SeriesFan(0.9)
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"voltage 90 % of the plate"}
	worked.Check(t, worked.Case{Question: "A vacuum motor with brushes gets 90 % of its voltage: how fast does it turn?", Source: "series motor with unsaturated flux, T ∝ I² and V ∝ I·n, on a fan, T ∝ n²",
		Status: worked.Identity, Given: given, Printed: "94.9 %", Got: float64(st.Speed) * 100})
	worked.Check(t, worked.Case{Question: "And what does it draw?", Source: "P = V·I with I ∝ n", Status: worked.Identity, Given: given, Printed: "85.4 %", Got: float64(st.Power) * 100})
}

// The torque balance of motor and fan, found by halving, gives the same speed.
func TestSeriesFan_balance(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		v := g.Float(0.01, 2)
		st, err := electrical.SeriesFan(units.Ratio(v))
		if err != nil {
			return err
		}
		lo, hi := 0.0, 4.0
		for range 200 {
			n := (lo + hi) / 2
			if i := v / n; i*i > n*n { // the motor's torque is above the fan's
				lo = n
			} else {
				hi = n
			}
		}
		if math.Abs(float64(st.Speed)-lo) > 1e-12 || math.Abs(float64(st.Power)-v*v/lo) > 1e-12 {
			return fmt.Errorf("at %g: speed %g, power %g; balance %g and %g", v, float64(st.Speed), float64(st.Power), lo, v*v/lo)
		}
		return nil
	})
	if _, err := electrical.SeriesFan(units.Ratio(math.NaN())); err == nil {
		t.Error("a voltage that is no number is accepted")
	}
}

// The air gap takes torque times synchronous speed, so power over shaft power is
// the synchronous speed over the speed.
func TestFanMotor_power(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		m := electrical.FanMotor{Voltage: 115, Frequency: 60, Poles: 2, Speed: units.RotationalSpeed(g.Float(3300, 3550)) * units.RPM, Breakdown: units.Ratio(g.Float(1.5, 3.5))}
		hz := g.Float(50, 65)
		st, err := m.At(units.Voltage(g.Float(95, 125)), units.Frequency(hz))
		if err != nil || !st.Holds {
			return err
		}
		shaft := math.Pow(float64(st.Air), 3)
		plate := m.Speed.In(units.RPM) / 3600 // shaft over air gap at the plate
		want := shaft * plate * (hz / 60 * 3600) / st.Speed.In(units.RPM)
		if math.Abs(float64(st.Power)-want) > 1e-9 {
			return fmt.Errorf("power %g, shaft power over 1 − slip %g", float64(st.Power), want)
		}
		return nil
	})
}
