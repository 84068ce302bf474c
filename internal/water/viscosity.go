package water

import "math"

// Critical constants of water (IAPWS R2-83(1992), used as reducing quantities
// by the transport releases).
const (
	criticalTemperature = 647.096  // K
	criticalPressure    = 22.064e6 // Pa
	criticalDensity     = 322.0    // kg/m³
)

// viscosity is the product μ0 μ1 of the 2008 formulation in Pa·s, for rho in
// kg/m³ and t = Tc/T, without a check.
//
// Source: IAPWS R12-08, Release on the IAPWS Formulation 2008 for the Viscosity
// of Ordinary Water Substance, Eqs. 11 and 12, Tables 1 and 2.
func viscosity(rho, t float64) float64 {
	u := t - 1
	u2 := u * u
	u3 := u2 * u
	d := rho*(1/criticalDensity) - 1
	d2 := d * d

	c0 := (5.20094e-1 + 8.50895e-2*u) + u2*(-1.08374-2.89555e-1*u)
	c1 := (2.22531e-1 + 9.99115e-1*u) + u2*(1.88797+1.26613*u) + u3*u2*1.20573e-1
	c2 := (-2.81378e-1 - 9.06851e-1*u) + u2*(-7.72479e-1-4.89837e-1*u-2.57040e-1*u2)
	c3 := 1.61913e-1 + 2.57399e-1*u
	c4 := -3.25372e-2 + 6.98452e-2*u3
	c5 := 8.72102e-3 * (u2 * u2)
	c6 := u3 * (-4.35673e-3 - 5.93264e-4*u2)
	s := (c0 + d*c1) + d2*(c2+d*c3) + d2*d2*((c4+d*c5)+d2*c6)

	h := (1.67752 + 2.20462*t) + t*t*(0.6366564-0.241605*t)
	return 1e-4 * math.Exp((d+1)*s) / (math.Sqrt(t) * h)
}

// Viscosity returns the dynamic viscosity in Pa·s of water or steam of density
// rho (kg/m³) at T (K).
//
//	μ = μ0(T/Tc) · μ1(T/Tc, ρ/ρc)
//
// The critical enhancement μ2 is left out, as the release recommends for
// industrial use: it exceeds 2 % only between 645.91 K and 650.77 K near the
// critical density, outside this package's range of states.
//
// Range: 273.15 K ≤ T ≤ 1173.15 K, 0 ≤ rho ≤ 1250 kg/m³; outside a [*units.FieldError].
//
// Source: IAPWS R12-08, Release on the IAPWS Formulation 2008 for the Viscosity
// of Ordinary Water Substance, Eqs. 10 to 12, Tables 1 and 2.
func Viscosity(rho, T float64) (float64, error) {
	if err := checkTransport(rho, T); err != nil {
		return 0, err
	}
	return viscosity(rho, criticalTemperature/T), nil
}

func checkTransport(rho, T float64) error {
	if err := checkRange("temperature", T, MinTemperature, 1173.15, slackT, "K"); err != nil {
		return err
	}
	return checkRange("density", rho, 0, 1250, 0, "kg/m³")
}
