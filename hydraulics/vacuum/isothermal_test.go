package vacuum_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// Outlet and flow are inverse, up to the critical flow; past it both refuse.
func TestIsothermal_inverse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p1, rho := units.AbsolutePressure(g.LogFloat(2e4, 1e6)), units.Density(g.LogFloat(0.5, 20))
		f, l, d := g.LogFloat(0.005, 0.1), units.Length(g.LogFloat(0.5, 500)), units.Length(g.LogFloat(0.01, 0.5))
		crit, err := vacuum.IsothermalCritical(p1, f, l, d)
		if err != nil {
			return err
		}
		y := square(float64(p1 / crit))
		if fl := f * float64(l/d); math.Abs(y-1-math.Log(y)-fl) > 1e-9*(1+fl) {
			return fmt.Errorf("critical ratio %v for f L/d = %v", y, fl)
		}
		p2 := crit + (p1-crit)*units.AbsolutePressure(g.Float(0.001, 1))
		m, err := vacuum.IsothermalFlow(p1, p2, rho, f, l, d)
		if err != nil {
			return err
		}
		back, err := vacuum.IsothermalOutlet(p1, rho, f, l, d, m)
		if err != nil || math.Abs(float64(back/p2)-1) > 1e-8 {
			return fmt.Errorf("outlet %v, was %v, %v", back, p2, err)
		}
		most, err := vacuum.IsothermalFlow(p1, crit*1.0000001, rho, f, l, d)
		if err != nil || most < m*(1-1e-9) {
			return fmt.Errorf("the critical flow %v is less than %v, %v", most, m, err)
		}
		if _, err = vacuum.IsothermalOutlet(p1, rho, f, l, d, most*1.001); err == nil {
			return fmt.Errorf("more than the critical flow passes")
		}
		return nil
	})
	_, err := vacuum.IsothermalFlow(1e5, 1, 1.2, 0.02, 10, 0.05)
	refused(t, err, "p2", units.ErrRange)
	_, err = vacuum.IsothermalFlow(1e5, 2e5, 1.2, 0.02, 10, 0.05)
	refused(t, err, "p2", units.ErrConflict)
	_, err = vacuum.IsothermalOutlet(1e5, 1.2, 0.02, 10, 0.05, 100)
	refused(t, err, "flow", units.ErrRange)
	if p := must(vacuum.IsothermalOutlet(1e5, 1.2, 0.02, 10, 0.05, 0))(t); p != 1e5 {
		t.Errorf("nothing flows, and %v are left", p)
	}
}

func square(x float64) float64 { return x * x }

func TestWater_range(t *testing.T) {
	for _, c := range []float64{-5, 99.5, math.NaN()} {
		_, err := vacuum.Water(units.Celsius(c))
		refused(t, err, "temperature", units.ErrRange)
	}
	w := must(vacuum.Water(units.Celsius(20)))(t)
	// IAPWS-IF97 and R12-08 at 20 °C and one atmosphere: 998.206 kg/m³, 1.00160 mPa·s;
	// surface tension 72.74 mN/m (IAPWS R1-76).
	near(t, "density", float64(w.Density), 998.206, 1e-6)
	near(t, "viscosity", float64(w.Viscosity), 1.00160e-3, 1e-5)
	near(t, "surface tension", float64(w.SurfaceTension), 72.74e-3, 1e-4)
}
