package air

import (
	"math"

	"example.com/washrig/internal/root"
)

// Range of humid air and the constants of ASHRAE's equations.
const (
	minHumid = 173.15 // K
	maxHumid = 473.15 // K

	zeroCelsius = 273.15
	triplePoint = 273.16
	massRatio   = 0.621945 // molar mass of water over that of air, Eq. 20
)

func checkHumid(p, T float64) error {
	if err := checkRange("absolute pressure", p, 10e3, 1e6, "Pa"); err != nil {
		return err
	}
	return checkRange("temperature", T, minHumid, maxHumid, "K")
}

// SaturationPressure returns the pressure in Pa of saturated water vapour at T
// (K), over ice below the triple point (273.16 K) and over water above.
//
//	ln p = C1/T + C2 + C3 T + C4 T² + C5 T³ + C6 T⁴ + C7 ln T
//
// Range: 173.15 K ≤ T ≤ 473.15 K; outside a [*units.FieldError]. Over water it is
// within 0.03 % of the table that ASHRAE prints and of the IAPWS-IF97 equation,
// which is the one for boiling water.
//
// Source: R. W. Hyland and A. Wexler, ASHRAE Transactions 89(2A), 1983, as in
// ASHRAE Handbook — Fundamentals (2017), chapter 1, Eqs. 5 and 6. ASHRAE changes
// from ice to water at 0 °C, where the two are 0.01 % apart; at the triple point
// they meet.
func SaturationPressure(T float64) (float64, error) {
	if err := checkRange("temperature", T, minHumid, maxHumid, "K"); err != nil {
		return 0, err
	}
	return vapour(T), nil
}

// vapour returns the pressure alone, Pa.
func vapour(T float64) float64 {
	if T < triplePoint {
		return math.Exp(-5.6745359e3/T + 6.3925247 + T*(-9.6778430e-3+T*(6.2215701e-7+T*(2.0747825e-9-T*9.4840240e-13))) + 4.1635019*math.Log(T))
	}
	return math.Exp(-5.8002206e3/T + 1.3914993 + T*(-4.8640239e-2+T*(4.1764768e-5-T*1.4452093e-8)) + 6.5459673*math.Log(T))
}

// saturation returns the pressure and its derivative, Pa and Pa/K.
func saturation(T float64) (p, dp float64) {
	p = vapour(T)
	if T < triplePoint {
		return p, p * (5.6745359e3/(T*T) - 9.6778430e-3 + T*(2*6.2215701e-7+T*(3*2.0747825e-9-T*4*9.4840240e-13)) + 4.1635019/T)
	}
	return p, p * (5.8002206e3/(T*T) - 4.8640239e-2 + T*(2*4.1764768e-5-T*3*1.4452093e-8) + 6.5459673/T)
}

// DewPoint returns the temperature in K at which vapour of the partial pressure
// pv (Pa) begins to condense, or to form frost below 273.16 K. It inverts
// [SaturationPressure] to 1e-9 K.
//
// Range: the saturation pressures of 173.15 K to 473.15 K, 0.0014 Pa to 1.5549
// MPa; outside a [*units.FieldError].
func DewPoint(pv float64) (float64, error) {
	lo, _ := saturation(minHumid)
	hi, _ := saturation(maxHumid)
	if err := checkRange("vapour pressure", pv, lo, hi, "Pa"); err != nil {
		return 0, err
	}
	return dewPoint(pv)
}

func dewPoint(pv float64) (float64, error) {
	// In ln p over 1/T the line is nearly straight.
	l := math.Log(pv)
	T0 := 1 / (1/373.12 - (l-11.526)/4890)
	T, _, err := root.Safeguarded(func(T float64) (f, df float64) {
		p, dp := saturation(T)
		return math.Log(p) - l, dp / p
	}, minHumid-1e-3, maxHumid+1e-3, T0, 1e-9, 0)
	if err != nil {
		return 0, err
	}
	return math.Min(math.Max(T, minHumid), maxHumid), nil
}

// HumidityRatio returns kg of vapour per kg of dry air when the vapour has the
// partial pressure pv (Pa) in air of the absolute pressure p (Pa).
//
//	W = 0.621945 pv/(p − pv)
//
// Range: 10 kPa ≤ p ≤ 1 MPa, 0 ≤ pv ≤ 0.99 p; outside a [*units.FieldError].
//
// Source: ASHRAE Handbook — Fundamentals (2017), chapter 1, Eq. 20.
func HumidityRatio(p, pv float64) (float64, error) {
	if err := checkRange("absolute pressure", p, 10e3, 1e6, "Pa"); err != nil {
		return 0, err
	}
	if err := checkRange("vapour pressure", pv, 0, 0.99*p, "Pa"); err != nil {
		return 0, err
	}
	return massRatio * pv / (p - pv), nil
}

// A Humid is a state of humid air.
type Humid struct {
	Pressure         float64 // absolute, Pa
	Temperature      float64 // dry bulb, K
	HumidityRatio    float64 // kg of vapour per kg of dry air
	VapourPressure   float64 // partial pressure, Pa
	RelativeHumidity float64 // of saturation at the same temperature, 0 to 1
	DewPoint         float64 // K; zero if there is too little vapour for one above −100 °C
	WetBulb          float64 // thermodynamic, K; over ice below 0 °C
	Density          float64 // of the mixture, kg/m³
	SpecificVolume   float64 // m³ per kg of dry air
	Enthalpy         float64 // J per kg of dry air, from dry air and liquid water at 0 °C
}

// FromRelativeHumidity returns the state of air of the absolute pressure p (Pa),
// the temperature T (K) and the relative humidity phi (0 to 1).
//
// Range: 10 kPa ≤ p ≤ 1 MPa, 173.15 K ≤ T ≤ 473.15 K, 0 ≤ phi ≤ 1 and a vapour
// pressure below 0.99 p; outside a [*units.FieldError].
//
// Source: ASHRAE Handbook — Fundamentals (2017), chapter 1: ideal mixture of
// ideal gases, Eqs. 20 and 22 with [SaturationPressure]. Against real-gas
// formulations the density is within 0.1 % and the humidity ratio of saturated
// air about 0.4 % low, because the enhancement factor is left out.
func FromRelativeHumidity(p, T, phi float64) (Humid, error) {
	if err := checkHumid(p, T); err != nil {
		return Humid{}, err
	}
	ps, _ := saturation(T)
	if err := checkRange("relative humidity", phi, 0, math.Min(1, 0.99*p/ps), ""); err != nil {
		return Humid{}, err
	}
	pv := phi * ps
	return complete(p, T, massRatio*pv/(p-pv))
}

// FromHumidityRatio returns the state of air of the absolute pressure p (Pa), the
// temperature T (K) and the humidity ratio W (kg of vapour per kg of dry air).
//
// Range: as [FromRelativeHumidity], W from 0 to saturation; outside a
// [*units.FieldError]. Source: the same.
func FromHumidityRatio(p, T, W float64) (Humid, error) {
	if err := checkHumid(p, T); err != nil {
		return Humid{}, err
	}
	if err := checkRange("humidity ratio", W, 0, saturated(p, T)*(1+1e-12), ""); err != nil {
		return Humid{}, err
	}
	return complete(p, T, W)
}

// FromDewPoint returns the state of air of the absolute pressure p (Pa), the
// temperature T (K) and the dew point Td (K).
//
// Range: as [FromRelativeHumidity], 173.15 K ≤ Td ≤ T; outside a
// [*units.FieldError]. Source: the same.
func FromDewPoint(p, T, Td float64) (Humid, error) {
	if err := checkHumid(p, T); err != nil {
		return Humid{}, err
	}
	if err := checkRange("dew point", Td, minHumid, math.Min(T, boiling(p)), "K"); err != nil {
		return Humid{}, err
	}
	return complete(p, T, saturated(p, Td))
}

// FromWetBulb returns the state of air of the absolute pressure p (Pa), the
// temperature T (K) and the thermodynamic wet-bulb temperature Tw (K): the one
// at which water (ice below 0 °C) saturates the air adiabatically. A sling
// psychrometer reads within about 0.2 K of it.
//
//	W = [(2501 − 2.326 tw) Ws(tw) − 1.006 (t − tw)] / (2501 + 1.86 t − 4.186 tw)  at or above 0 °C
//	W = [(2830 − 0.24 tw) Ws(tw) − 1.006 (t − tw)] / (2830 + 1.86 t − 2.1 tw)     below
//
// t and tw are in °C and Ws is the humidity ratio of saturation.
//
// Range: as [FromRelativeHumidity], Tw from the wet bulb of dry air to T; outside
// a [*units.FieldError].
//
// Source: ASHRAE Handbook — Fundamentals (2017), chapter 1, Eqs. 33 and 35.
func FromWetBulb(p, T, Tw float64) (Humid, error) {
	if err := checkHumid(p, T); err != nil {
		return Humid{}, err
	}
	if err := checkRange("wet-bulb temperature", Tw, minHumid, math.Min(T, boiling(p)), "K"); err != nil {
		return Humid{}, err
	}
	W := fromWetBulb(p, T, Tw)
	if W < 0 {
		lowest, err := wetBulb(p, T, 0)
		if err != nil {
			return Humid{}, err
		}
		if Tw < lowest-1e-9 {
			return Humid{}, outside("wet-bulb temperature", Tw, lowest, T, "K")
		}
		W = 0
	}
	h, err := complete(p, T, math.Min(W, saturated(p, T)))
	if err == nil {
		h.WetBulb = Tw
	}
	return h, err
}

// complete fills in a state that has been checked.
func complete(p, T, W float64) (Humid, error) {
	pv := p * W / (massRatio + W)
	ps, _ := saturation(T)
	v := specificGas * T * (1 + W/massRatio) / p
	t := T - zeroCelsius
	h := Humid{
		Pressure:         p,
		Temperature:      T,
		HumidityRatio:    W,
		VapourPressure:   pv,
		RelativeHumidity: math.Min(pv/ps, 1),
		Density:          (1 + W) / v,
		SpecificVolume:   v,
		Enthalpy:         1e3 * (1.006*t + W*(2501+1.86*t)),
	}
	var err error
	if least, _ := saturation(minHumid); pv >= least {
		if h.DewPoint, err = dewPoint(pv); err != nil {
			return Humid{}, err
		}
		h.DewPoint = math.Min(h.DewPoint, T)
	}
	if h.WetBulb, err = wetBulb(p, T, W); err != nil {
		return Humid{}, err
	}
	return h, nil
}

// saturated returns the humidity ratio of saturated air; where water boils or
// nearly so, that of a vapour pressure of 0.99 p.
func saturated(p, T float64) float64 {
	ps, _ := saturation(T)
	ps = math.Min(ps, 0.99*p)
	return massRatio * ps / (p - ps)
}

// boiling returns the temperature at which the saturation pressure is 0.99 p,
// the end of the range if it is not reached.
func boiling(p float64) float64 {
	if hi, _ := saturation(maxHumid); 0.99*p >= hi {
		return maxHumid
	}
	T, err := dewPoint(0.99 * p)
	if err != nil {
		return maxHumid
	}
	return T
}

// fromWetBulb is Eq. 33 or 35; negative where no air is so dry.
func fromWetBulb(p, T, Tw float64) float64 {
	t, tw := T-zeroCelsius, Tw-zeroCelsius
	Ws := saturated(p, Tw)
	if tw >= 0 {
		return ((2501-2.326*tw)*Ws - 1.006*(t-tw)) / (2501 + 1.86*t - 4.186*tw)
	}
	return ((2830-0.24*tw)*Ws - 1.006*(t-tw)) / (2830 + 1.86*t - 2.1*tw)
}

// wetBulb finds the wet bulb of air of humidity ratio W, at most saturated.
//
// The equation jumps down from ice to water at 0 °C, so that a little more or
// less than the value there has two answers; the one over water is taken.
func wetBulb(p, T, W float64) (float64, error) {
	lo, hi := minHumid, math.Min(T, boiling(p))
	if hi > zeroCelsius {
		if W >= fromWetBulb(p, T, zeroCelsius) {
			lo = zeroCelsius
		} else {
			hi = math.Nextafter(zeroCelsius, 0)
		}
	}
	switch { // at the ends, where rounding or the range leaves no sign change
	case fromWetBulb(p, T, hi) <= W:
		return hi, nil
	case fromWetBulb(p, T, lo) >= W:
		return lo, nil
	}
	Tw, _, err := root.Bracketed(func(Tw float64) float64 { return fromWetBulb(p, T, Tw) - W }, lo, hi, 1e-10)
	return Tw, err
}
