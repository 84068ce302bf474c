package water

import "math"

// Coefficients of the saturation line.
//
// Source: IAPWS R7-97(2012), section 8, Table 34; Eqs. 29 to 31.
const (
	s1  = 0.11670521452767e4
	s2  = -0.72421316703206e6
	s3  = -0.17073846940092e2
	s4  = 0.12020824702470e5
	s5  = -0.32325550322333e7
	s6  = 0.14915108613530e2
	s7  = -0.48232657361591e4
	s8  = 0.40511340542057e6
	s9  = -0.23855557567849
	s10 = 0.65017534844798e3
)

// saturationPressure is Eq. 30, T in K, result in Pa, without a check.
func saturationPressure(T float64) float64 {
	th := T + s9/(T-s10)
	A := (th+s1)*th + s2
	B := (s3*th+s4)*th + s5
	C := (s6*th+s7)*th + s8
	q := 2 * C / (math.Sqrt(B*B-4*A*C) - B)
	q *= q
	return q * q * 1e6
}

// saturationTemperature is Eq. 31, p in Pa, result in K, without a check.
func saturationTemperature(p float64) float64 {
	b2 := math.Sqrt(p * 1e-6)
	b := math.Sqrt(b2)
	E := b2 + s3*b + s6
	F := s1*b2 + s4*b + s7
	G := s2*b2 + s5*b + s8
	D := 2 * G / (-F - math.Sqrt(F*F-4*E*G))
	return 0.5 * (s10 + D - math.Sqrt((s10+D)*(s10+D)-4*(s9+s10*D)))
}

// SaturationPressure returns the pressure in Pa at which water boils at T (K).
//
// Range: 273.15 K ≤ T ≤ 647.096 K (the critical point); outside a [*units.FieldError].
//
// Source: IAPWS R7-97(2012), Eq. 30. At 100 °C it gives 101 418 Pa; water boils
// at 99.974 °C under 101 325 Pa.
func SaturationPressure(T float64) (float64, error) {
	if err := checkRange("temperature", T, MinTemperature, criticalTemperature, slackT, "K"); err != nil {
		return 0, err
	}
	return saturationPressure(T), nil
}

// Pressures at which the saturation line leaves the range of the package.
const (
	minSaturation = 611.212677444      // at 273.15 K, Pa
	maxSaturation = 16529164.252604478 // at 623.15 K, Pa
)

// SaturationTemperature returns the temperature in K at which water boils under
// the absolute pressure p (Pa).
//
// Range: 611.213 Pa ≤ p ≤ 22.064 MPa (0 °C to the critical point); outside a
// [*units.FieldError].
//
// Source: IAPWS R7-97(2012), Eq. 31, the exact inverse of Eq. 30.
func SaturationTemperature(p float64) (float64, error) {
	if err := checkRange("absolute pressure", p, minSaturation, criticalPressure, 1e-9*criticalPressure, "Pa"); err != nil {
		return 0, err
	}
	return saturationTemperature(p), nil
}

// BoilingPoint is [SaturationTemperature] for one who asks whether there is a boiling
// point at all: ok is false outside its range, without the text of an error.
func BoilingPoint(p float64) (T float64, ok bool) {
	if !(p >= minSaturation-1e-9*criticalPressure && p <= criticalPressure*(1+1e-9)) {
		return 0, false
	}
	return saturationTemperature(p), true
}

// Boils reports whether water of T (K) is above its boiling point at p (Pa, absolute) by
// more than margin K: T > T(p) + margin. Above the critical pressure, and below the
// range of [SaturationTemperature], nothing boils.
func Boils(p, T, margin float64) bool {
	// Water boils at 99.97 °C under one atmosphere and at 179.9 °C under 1 MPa; most of
	// what is asked is below that.
	if t := T - margin; p >= 101325 && t <= 373 || p >= 1e6 && t <= 453 {
		return false
	}
	ts, ok := BoilingPoint(p)
	return ok && T > ts+margin
}

// SaturatedLiquid returns the properties of liquid at its boiling point T (K).
//
// Range: 273.15 K ≤ T ≤ 623.15 K; outside a [*units.FieldError].
//
// Source: region 1 of IAPWS R7-97(2012) at the pressure of Eq. 30.
func SaturatedLiquid(T float64) (Properties, error) {
	if err := checkTemperature(T); err != nil {
		return Properties{}, err
	}
	return properties(saturationPressure(T), T, Liquid), nil
}

// SaturatedSteam returns the properties of steam at its dew point T (K).
//
// Range: 273.15 K ≤ T ≤ 623.15 K; outside a [*units.FieldError].
//
// Source: region 2 of IAPWS R7-97(2012) at the pressure of Eq. 30.
func SaturatedSteam(T float64) (Properties, error) {
	if err := checkTemperature(T); err != nil {
		return Properties{}, err
	}
	return properties(saturationPressure(T), T, Steam), nil
}

// SaturatedEnthalpies returns the enthalpies in J/kg of [SaturatedLiquid] and
// [SaturatedSteam] at T (K), up to rounding. Range as these.
func SaturatedEnthalpies(T float64) (liquid, steam float64, err error) {
	if err := checkTemperature(T); err != nil {
		return 0, 0, err
	}
	p := saturationPressure(T)
	_, liquid, _ = region1(p, T)
	return liquid, enthalpy2(p, T), nil
}

// LatentHeat returns the heat of evaporation in J/kg at T (K), the difference of
// the enthalpies of [SaturatedSteam] and [SaturatedLiquid]. Range as these.
func LatentHeat(T float64) (float64, error) {
	if err := checkTemperature(T); err != nil {
		return 0, err
	}
	p := saturationPressure(T)
	_, hf, _ := region1(p, T)
	return enthalpy2(p, T) - hf, nil
}
