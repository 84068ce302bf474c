package fuel

import (
	"errors"
	"math"

	"example.com/washrig/units"
)

// PlateReference is the temperature from which a rating plate counts heat when
// [PlateDerating.Reference] is not given: 77 °F (25 °C), the reference air of
// SAE J1349 and ISO 3046-1.
func PlateReference() units.Temperature { return units.Fahrenheit(77) }

// A PlateDerating is the altitude and heat rule of an engine's rating plate.
//
// Its zero value takes nothing off.
type PlateDerating struct {
	PerThousandFeet       units.Ratio       // share lost for each 1,000 ft above From, 0 to 1
	PerTenFahrenheitAbove units.Ratio       // share lost for each 10 °F of air above Reference, 0 to 1
	From                  units.Elevation   // height the plate counts from; not given: sea level
	Reference             units.Temperature // air the plate counts from; not given: 77 °F
}

// Validate returns every problem of d, joined in field order.
func (d PlateDerating) Validate() error {
	var from, reference error
	if d.From.Given() {
		from = checkElevation("from", d.From)
	}
	if d.Reference.Given() {
		reference = checkAir("reference", d.Reference)
	}
	return errors.Join(
		checkShare("perThousandFeet", d.PerThousandFeet),
		checkShare("perTenFahrenheitAbove", d.PerTenFahrenheitAbove),
		from, reference)
}

// Factor returns the share of its rating the engine keeps at an elevation in
// air of a temperature:
//
//	f = (1 − a·h/1000 ft)·(1 − b·(T − T0)/10 °F)
//
// a and b are the two shares of the plate, h the height above From, T the air
// and T0 the Reference. Each bracket counts losses only and is held between 0
// and 1: below From or in air colder than Reference the plate promises nothing
// extra, and cold air does not pay for altitude. So f is never above 1 and
// never below 0.
//
// Range: any elevation and air the package accepts, −3,000 to 36,000 ft and
// −100 to 200 °F. A plate is a straight line drawn through one or two tests;
// [J1349] and [ISO3046] stand beside it.
//
// Errors: a *[units.FieldError] for elevation, air or a field of d; an
// elevation or air that is not given is missing.
//
// Source: 3.5 % per 1,000 ft and 1 % per 10 °F above 77 °F are common practice
// for naturally aspirated engines; the plate of the engine decides.
func (d PlateDerating) Factor(elevation units.Elevation, air units.Temperature) (units.Ratio, error) {
	if err := errors.Join(d.Validate(), checkElevation("elevation", elevation), checkAir("air", air)); err != nil {
		return 0, err
	}
	var from units.Length
	if d.From.Given() {
		from = d.From.Length()
	}
	reference := PlateReference()
	if d.Reference.Given() {
		reference = d.Reference
	}
	h := (elevation.Length() - from).In(1000 * units.Foot)
	dT := air.Sub(reference).In(10 * units.FahrenheitDelta)
	return units.Ratio(plateFactor(float64(d.PerThousandFeet), float64(d.PerTenFahrenheitAbove), h, dT)), nil
}

// plateFactor is the plate rule. a and b are shares lost per step, h is in
// thousands of feet and dT in tens of degrees Fahrenheit.
func plateFactor(a, b, h, dT float64) float64 {
	return clampShare(1-a*math.Max(h, 0)) * clampShare(1-b*math.Max(dT, 0))
}

// clampShare holds x between 0 and 1.
func clampShare(x float64) float64 { return math.Min(math.Max(x, 0), 1) }
