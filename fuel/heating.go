package fuel

import (
	"errors"

	"example.com/washrig/units"
)

// A HigherHeatingValue is the heat of a volume of fuel at 60 °F when the water
// of combustion is condensed: the basis of burner input and of fuel bills in
// this trade. It does not mix with a [LowerHeatingValue].
type HigherHeatingValue units.HeatingValueByVolume

// In returns h as a plain number of the unit: h.In(units.BTUPerGallon).
func (h HigherHeatingValue) In(unit units.HeatingValueByVolume) float64 {
	return units.HeatingValueByVolume(h).In(unit)
}

// ByVolume returns h without its basis, which is then the caller's to remember.
func (h HigherHeatingValue) ByVolume() units.HeatingValueByVolume {
	return units.HeatingValueByVolume(h)
}

// String returns h with its basis: "138490 BTU/gal HHV".
func (h HigherHeatingValue) String() string {
	return units.HeatingValueByVolume(h).Text(units.BTUPerGallon, 0) + " HHV"
}

// A LowerHeatingValue is the heat of a volume of fuel at 60 °F when the water of
// combustion leaves as vapour: the basis of engine efficiency. It does not mix
// with a [HigherHeatingValue].
type LowerHeatingValue units.HeatingValueByVolume

// In returns l as a plain number of the unit: l.In(units.BTUPerGallon).
func (l LowerHeatingValue) In(unit units.HeatingValueByVolume) float64 {
	return units.HeatingValueByVolume(l).In(unit)
}

// ByVolume returns l without its basis, which is then the caller's to remember.
func (l LowerHeatingValue) ByVolume() units.HeatingValueByVolume {
	return units.HeatingValueByVolume(l)
}

// String returns l with its basis: "129488 BTU/gal LHV".
func (l LowerHeatingValue) String() string {
	return units.HeatingValueByVolume(l).Text(units.BTUPerGallon, 0) + " LHV"
}

// HigherInput returns the heat input of a burner on the higher basis, rate × h:
// the number on a burner plate.
//
// Errors: a *[units.FieldError] for a rate below zero or above 1,000 m³/h, or a
// heating value that is not above zero.
func HigherInput(rate units.FuelRate, h HigherHeatingValue) (units.Power, error) {
	if err := errors.Join(checkRate("rate", rate), checkHeatingValue("higher", h.ByVolume())); err != nil {
		return 0, err
	}
	return units.Power(float64(rate) * float64(h)), nil
}

// LowerInput returns the heat a fuel flow brings on the lower basis, rate × l:
// the number an engine's efficiency is counted from.
//
// Errors: as for [HigherInput].
func LowerInput(rate units.FuelRate, l LowerHeatingValue) (units.Power, error) {
	if err := errors.Join(checkRate("rate", rate), checkHeatingValue("lower", l.ByVolume())); err != nil {
		return 0, err
	}
	return units.Power(float64(rate) * float64(l)), nil
}
