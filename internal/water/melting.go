package water

import (
	"math"

	"example.com/washrig/internal/root"
)

// Triple point of water and the lower end of ordinary ice.
const (
	tripleTemperature = 273.16  // K
	triplePressure    = 611.657 // Pa
	iceTemperature    = 251.165 // K
)

// MeltingPressure returns the pressure in Pa at which ordinary ice (ice Ih) and
// water are in equilibrium at T (K). Ice melts under pressure: the pressure
// falls with the temperature.
//
//	p/pt = 1 + Σ a (1 − (T/Tt)^b)
//
// Range: 251.165 K ≤ T ≤ 273.16 K (the triple point); outside a [*units.FieldError].
//
// Source: IAPWS R14-08(2011), Revised Release on the Pressure along the Melting
// and Sublimation Curves of Ordinary Water Substance, Eq. 1 and Table 1.
func MeltingPressure(T float64) (float64, error) {
	if err := checkRange("temperature", T, iceTemperature, tripleTemperature, slackT, "K"); err != nil {
		return 0, err
	}
	p, _ := meltingPressure(T)
	return p, nil
}

// meltingPressure returns the pressure and its derivative, Pa and Pa/K.
func meltingPressure(T float64) (p, dp float64) {
	const a1, b1 = 0.119539337e7, 3.0
	const a2, b2 = 0.808183159e5, 25.75
	const a3, b3 = 0.333826860e4, 103.75
	th := T / tripleTemperature
	l := math.Log(th)
	e1, e2, e3 := math.Expm1(b1*l), math.Expm1(b2*l), math.Expm1(b3*l)
	p = triplePressure * (1 - a1*e1 - a2*e2 - a3*e3)
	dp = -triplePressure / T * (a1*b1*(1+e1) + a2*b2*(1+e2) + a3*b3*(1+e3))
	return p, dp
}

// MeltingTemperature returns the temperature in K at which ordinary ice and
// water are in equilibrium at the absolute pressure p (Pa): 273.16 K at the
// triple point, 273.1525 K at 1 atm, about 269 K at 50 MPa. (Water with air in
// it, as in the old definition of 0 °C, freezes 0.0025 K lower.)
//
// Range: 611.657 Pa ≤ p ≤ 50 MPa; outside a [*units.FieldError].
//
// It inverts [MeltingPressure] to 1e-12 K.
func MeltingTemperature(p float64) (float64, error) {
	if err := checkRange("absolute pressure", p, triplePressure, MaxPressure, MaxPressure*slackP, "Pa"); err != nil {
		return 0, err
	}
	T, _, err := root.Safeguarded(func(T float64) (f, df float64) {
		f, df = meltingPressure(T)
		return f - p, df
	}, iceTemperature, tripleTemperature+1e-6, tripleTemperature-7.4e-8*p, 1e-12, 0)
	if err != nil {
		return 0, err
	}
	return math.Min(T, tripleTemperature), nil
}
