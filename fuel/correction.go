package fuel

import (
	"errors"
	"math"

	"example.com/washrig/internal/air"
	"example.com/washrig/units"
)

// An Ignition is how an engine lights its fuel.
type Ignition uint8

// The ignitions. The zero Ignition is "not given".
const (
	Spark       Ignition = iota + 1 // gasoline, propane, natural gas
	Compression                     // diesel
)

// String returns the ignition in a word.
func (i Ignition) String() string {
	switch i {
	case Spark:
		return "spark"
	case Compression:
		return "compression"
	}
	return "not given"
}

// An Aspiration is how an engine gets its air. The zero Aspiration is natural.
type Aspiration uint8

// The aspirations.
const (
	NaturallyAspirated Aspiration = iota
	Turbocharged                  // without a charge cooler, or with an air-to-air one where the standard asks for that
	ChargeCooled                  // turbocharged with the charge cooled
)

// String returns the aspiration in words.
func (a Aspiration) String() string {
	switch a {
	case NaturallyAspirated:
		return "naturally aspirated"
	case Turbocharged:
		return "turbocharged"
	case ChargeCooled:
		return "turbocharged and charge cooled"
	}
	return "invalid"
}

// A Correction is a way from a rating to the power at a site.
type Correction uint8

// The corrections. The zero Correction is the plate's.
const (
	ByPlate   Correction = iota // [PlateDerating]
	ByJ1349                     // [J1349]
	ByISO3046                   // [ISO3046]
)

// String returns the correction's name.
func (c Correction) String() string {
	switch c {
	case ByPlate:
		return "plate"
	case ByJ1349:
		return "SAE J1349"
	case ByISO3046:
		return "ISO 3046-1"
	}
	return "invalid"
}

// pressure returns the barometer at the site in Pa.
func (s Site) pressure() (float64, error) {
	if s.Pressure != 0 {
		return float64(s.Pressure), nil
	}
	return air.PressureAt(float64(s.Elevation.Length()))
}

// vapour returns the partial pressure of water vapour at the site in Pa.
func (s Site) vapour() (float64, error) {
	if s.Humidity == 0 {
		return 0, nil
	}
	p, err := air.SaturationPressure(s.Air.Kelvin())
	return float64(s.Humidity) * p, err
}

// DryPressure returns the pressure of the air at the site without its water
// vapour:
//
//	p_d = p − φ·p_s(T)
//
// p is the barometer, or that of the U.S. Standard Atmosphere 1976 at the
// elevation, φ the relative humidity and p_s the saturation pressure of water
// over liquid, or ice below 0.01 °C, at the air temperature T (Hyland and
// Wexler).
//
// Errors: a *[units.FieldError] for a field of s.
func (s Site) DryPressure() (units.AbsolutePressure, error) {
	if err := s.Validate(); err != nil {
		return 0, err
	}
	p, err := s.pressure()
	if err != nil {
		return 0, err
	}
	v, err := s.vapour()
	if err != nil {
		return 0, err
	}
	return units.AbsolutePressure(p - v), nil
}

// J1349 is SAE J1349 for one engine. Its zero value is a naturally aspirated
// engine whose Ignition is missing.
type J1349 struct {
	Ignition   Ignition    // required
	Aspiration Aspiration  // of diesels; the formula for spark ignition is for natural aspiration only
	Fuel       units.Ratio // engine factor of diesels, see [EngineFactor]; not given: 0.3
}

// Factor returns the share of its rating that an engine gives in other air: the
// reciprocal of the standard's correction factor, by which a power measured in
// that air is multiplied to compare it with the rating.
//
//	spark:        1/f = 1.18·(990 mb/p_d)·√((t + 273)/298) − 0.18
//	compression:  1/f = [(990 mb/p_d)^a·((t + 273)/298)^b]^fm
//
// p_d is the pressure of the dry air and t its temperature in °C; a and b are 1
// and 0.7 for natural aspiration, 0.7 and 1.2 turbocharged, 0.7 and 0.7 where
// water cools the charge, and fm is the engine factor Fuel. It is exactly 1 in
// the standard's own air, 990 mb dry and 25 °C; at 100 kPa and 30 % humidity,
// which the standard also names, it is 1.0006.
//
// Range: the standard corrects tests by up to 7 %; a site is further away, and
// the formula is used there because nothing better is published. It knows no
// governor: in cold, dense air f is above 1. Outside 20 to 120 kPa and −100 to
// 200 °F an error.
//
// Errors: a *[units.FieldError] for dry, t, a missing ignition, a turbocharged
// spark engine (ErrConflict) or a Fuel outside 0.2 to 1.2.
//
// Source: SAE J1349, June 1990, as printed in public test notes; the exponents
// for compression ignition as ISO 1585 and ISO 15550 have them, from memory.
func (j J1349) Factor(dry units.AbsolutePressure, t units.Temperature) (units.Ratio, error) {
	err := errors.Join(checkBarometer("dry", dry), checkAir("air", t), j.Validate())
	if err != nil {
		return 0, err
	}
	pressure, heat := 99e3/float64(dry), (t.Celsius()+273)/298
	if j.Ignition == Spark {
		return units.Ratio(1 / j1349Spark(pressure, heat)), nil
	}
	fm := 0.3
	if j.Fuel != 0 {
		fm = float64(j.Fuel)
	}
	a, b := 1.0, 0.7
	switch j.Aspiration {
	case Turbocharged:
		a, b = 0.7, 1.2
	case ChargeCooled:
		a, b = 0.7, 0.7
	}
	return units.Ratio(math.Pow(pressure, -a*fm) * math.Pow(heat, -b*fm)), nil
}

// Validate returns every problem of j, joined in field order.
func (j J1349) Validate() error {
	err := checkIgnition(j.Ignition)
	switch {
	case j.Aspiration > ChargeCooled:
		err = errors.Join(err, outside("aspiration", j.Aspiration.String(), "naturally aspirated, turbocharged or charge cooled"))
	case j.Ignition == Spark && j.Aspiration != NaturallyAspirated:
		err = errors.Join(err, &units.FieldError{
			Path: "aspiration", Value: j.Aspiration.String(),
			Want: "natural aspiration with spark ignition; the standard has no formula for a boosted one",
			Err:  units.ErrConflict,
		})
	}
	if j.Fuel != 0 && !within(float64(j.Fuel), 0.2, 1.2) {
		err = errors.Join(err, outside("fuel", number(float64(j.Fuel)), "0.2 to 1.2"))
	}
	return err
}

// checkIgnition wants one of the two.
func checkIgnition(i Ignition) error {
	switch i {
	case Spark, Compression:
		return nil
	case 0:
		return missing("ignition", "spark or compression")
	}
	return outside("ignition", number(float64(i)), "spark or compression")
}

// j1349Spark is the correction factor of SAE J1349 for spark ignition: pressure
// is 990 mb over the dry pressure and heat the absolute temperature over 298 K.
func j1349Spark(pressure, heat float64) float64 {
	return 1.18*pressure*math.Sqrt(heat) - 0.18
}

// EngineFactor returns the engine factor fm of a diesel from the fuel it takes:
//
//	fm = 0.036·q/r − 1.14, held between 0.2 and 1.2
//
// q is the fuel in milligrams for each litre of displacement and cycle and r the
// charge pressure over the barometer, 1 without a turbocharger; both are plain
// numbers because no other formula uses their units.
//
// Special cases: NaN if either argument is NaN.
//
// Source: ISO 1585 and SAE J1349, as a public engine service manual prints them.
func EngineFactor(q, r float64) float64 {
	return math.Min(math.Max(0.036*q/r-1.14, 0.2), 1.2)
}

// ISO3046 is the power adjustment of ISO 3046-1 for one engine.
type ISO3046 struct {
	Ignition   Ignition          // required
	Aspiration Aspiration        //
	Mechanical units.Ratio       // mechanical efficiency at the rating; not given: 0.80, the standard's own default
	Coolant    units.Temperature // into the charge cooler; not given: the air's
}

// Factor returns the share of its rating that an engine gives at a site:
//
//	α = k − 0.7·(1 − k)·(1/η − 1)
//	k = [(p_x − a·φ·p_s)/(p_r − a·φ_r·p_sr)]^m · (T_r/T_x)^n · (T_cr/T_cx)^s
//
// p_x, T_x and φ are the site's barometer, air and humidity, T_cx the coolant of
// the charge cooler and η the mechanical efficiency. The reference has p_r 100
// kPa, T_r and T_cr 298 K and φ_r 30 %. Humidity counts (a = 1) where the engine
// is short of air:
//
//	                                  a  m     n     s
//	compression, naturally aspirated  1  1     0.75  0
//	compression, turbocharged         0  0.7   2.0   0
//	compression, charge cooled        0  0.7   1.2   1
//	spark, naturally aspirated        1  0.86  0.55  0
//	spark, turbocharged or cooled     0  0.57  0.55  1.75
//
// It is exactly 1 in the reference air.
//
// Range: sites a person works at. In cold, dense air α is above 1 and the maker's
// word decides. Outside 20 to 120 kPa and −100 to 200 °F an error.
//
// Errors: a *[units.FieldError] for a field of s ("site.…"), a missing ignition
// or an efficiency outside 0.5 to 1.
//
// Source: ISO 3046-1:2002, tables 2 and 3, from memory.
func (i ISO3046) Factor(s Site) (units.Ratio, error) {
	if err := errors.Join(i.Validate(), units.At("site", s.Validate())); err != nil {
		return 0, err
	}
	p, err := s.pressure()
	if err != nil {
		return 0, err
	}
	v, err := s.vapour()
	if err != nil {
		return 0, err
	}
	const pr, Tr = 100e3, 298.0
	vr, err := air.SaturationPressure(Tr)
	if err != nil {
		return 0, err
	}
	vr *= 0.3
	a, m, n, c := i.exponents()
	Tx := s.Air.Kelvin()
	Tc := Tx
	if i.Coolant.Given() {
		Tc = i.Coolant.Kelvin()
	}
	k := math.Pow((p-a*v)/(pr-a*vr), m) * math.Pow(Tr/Tx, n) * math.Pow(Tr/Tc, c)
	eta := 0.80
	if i.Mechanical != 0 {
		eta = float64(i.Mechanical)
	}
	return units.Ratio(math.Max(k-0.7*(1-k)*(1/eta-1), 0)), nil
}

// exponents returns a, m, n and s of the table.
func (i ISO3046) exponents() (a, m, n, s float64) {
	switch {
	case i.Ignition == Spark && i.Aspiration == NaturallyAspirated:
		return 1, 0.86, 0.55, 0
	case i.Ignition == Spark:
		return 0, 0.57, 0.55, 1.75
	case i.Aspiration == NaturallyAspirated:
		return 1, 1, 0.75, 0
	case i.Aspiration == Turbocharged:
		return 0, 0.7, 2, 0
	}
	return 0, 0.7, 1.2, 1
}

// Validate returns every problem of i, joined in field order.
func (i ISO3046) Validate() error {
	err := checkIgnition(i.Ignition)
	if i.Aspiration > ChargeCooled {
		err = errors.Join(err, outside("aspiration", i.Aspiration.String(), "naturally aspirated, turbocharged or charge cooled"))
	}
	if i.Mechanical != 0 && !within(float64(i.Mechanical), 0.5, 1) {
		err = errors.Join(err, outside("mechanical", number(float64(i.Mechanical)), "0.5 to 1"))
	}
	if i.Coolant.Given() {
		err = errors.Join(err, checkAir("coolant", i.Coolant))
	}
	return err
}
