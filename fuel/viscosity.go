package fuel

import (
	"errors"
	"math"

	"example.com/washrig/units"
)

// ViscosityAt returns the kinematic viscosity of a fuel oil at a temperature, by
// the chart of ASTM D341:
//
//	log log(ν + 0.7) = log log(ν40 + 0.7) − B·(log T − log 313.15)
//
// with ν in mm²/s, T in kelvins, logarithms to base 10, ν40 the viscosity at
// 40 °C (104 °F) of the row or certificate and B its slope.
//
// Range: −60 to 160 °F, and no further than the cloud point, below which wax
// thickens the fuel and the chart no longer holds; the value is still returned,
// and [Properties.ColdAt] says so.
//
// Errors: a *[units.FieldError] for the temperature, or for a fuel without a
// viscosity (gasoline, propane and natural gas have none in the table).
//
// Source: ASTM D341 for the form. The slope 3.7 of the table is from memory, a
// middle value for distillates of 1 to 5 mm²/s; two viscosities of a certificate
// replace it.
func (p Properties) ViscosityAt(t units.Temperature) (units.KinematicViscosity, error) {
	err := checkFuelTemperature("temperature", t)
	if p.Viscosity == 0 {
		err = errors.Join(err, missing("viscosity", "the viscosity at 40 °C of a fuel oil"))
	} else {
		err = errors.Join(err, checkViscosity("viscosity", p.Viscosity))
		if !within(p.ViscositySlope, 1, 10) {
			err = errors.Join(err, outside("viscositySlope", number(p.ViscositySlope), "1 to 10"))
		}
	}
	if err != nil {
		return 0, err
	}
	nu := walther(p.Viscosity.In(units.Centistokes), p.ViscositySlope, t.Kelvin())
	return units.KinematicViscosity(nu) * units.Centistokes, nil
}

// walther is the ASTM D341 line: nu40 and the result in mm²/s, T in K.
func walther(nu40, B, T float64) float64 {
	return math.Pow(10, math.Log10(nu40+0.7)*math.Pow(T/313.15, -B)) - 0.7
}

// waltherSlope is B of the line through nu1 at T1 and nu2 at T2.
func waltherSlope(nu1, T1, nu2, T2 float64) float64 {
	return math.Log10(math.Log10(nu1+0.7)/math.Log10(nu2+0.7)) / math.Log10(T2/T1)
}

// A NozzleEffect is what an oil burner nozzle does with another oil, or the same
// oil at another temperature, at the same pump pressure.
type NozzleEffect struct {
	Viscosity units.KinematicViscosity // of the oil as it enters the nozzle
	Flow      units.Ratio              // volume flow over that on the nozzle's plate
	Heat      units.Ratio              // heat on the higher basis over that of the plate's oil
	Droplet   units.Ratio              // mean drop diameter over that of the plate's oil
}

// NozzleAt returns what an oil burner nozzle does with this oil at a temperature,
// against the oil its plate is for: No. 2 oil at 100 °F.
//
//	q/q0 = √(ρ0/ρ)·(ν/ν0)^0.02
//	D/D0 = (ν/ν0)^0.2
//
// A pressure-swirl nozzle passes more of a thicker oil, because the thicker film
// leaves a smaller air core, and breaks it into larger drops. Heat counts the
// heating value of the oil as well, and that cold oil is denser.
//
// Range: oils of 1 to 12 mm²/s; outside it an error, since a swirl nozzle then
// begins to fail. The exponent 0.02 is of nozzles larger than a trailer's; small
// nozzles respond more strongly, so take Flow − 1 as a lower bound. The direction
// is certain, the size is not: a chart of the nozzle's own decides.
//
// Errors: a *[units.FieldError] as for [Properties.ViscosityAt], or for a
// viscosity outside the range.
//
// Source: A. R. Jones (1982) for the discharge coefficient and A. Radcliffe
// (1960) for the drop size, both as given by A. H. Lefebvre, Atomization and
// Sprays, 1989; from memory. J. Ballester and C. Dopazo, Atomization and Sprays
// 4 (1994) 351, for small nozzles being stronger.
func (p Properties) NozzleAt(t units.Temperature) (NozzleEffect, error) {
	plate, at := properties[Diesel2], units.Fahrenheit(100)
	nu, err := p.ViscosityAt(t)
	if err == nil && !within(nu.In(units.Centistokes), 1, 12) {
		err = outside("temperature", number(math.Round(t.Fahrenheit()*1e3)/1e3)+" °F", "a temperature at which the oil has 1 to 12 cSt; here it has "+nu.Text(units.Centistokes, 1))
	}
	err = errors.Join(err, checkDensity("density", p.Density), checkHeatingValue("higher", p.Higher.ByVolume()))
	if err != nil {
		return NozzleEffect{}, err
	}
	nu0, err := plate.ViscosityAt(at)
	if err != nil {
		return NozzleEffect{}, err
	}
	thick := float64(nu / nu0)
	expand, expand0 := p.expansion(t), plate.expansion(at)
	flow := math.Sqrt(float64(plate.Density)*expand0/(float64(p.Density)*expand)) * math.Pow(thick, 0.02)
	return NozzleEffect{
		Viscosity: nu,
		Flow:      units.Ratio(flow),
		Heat:      units.Ratio(flow * float64(p.Higher) * expand / (float64(plate.Higher) * expand0)),
		Droplet:   units.Ratio(math.Pow(thick, 0.2)),
	}, nil
}

// checkViscosity wants the viscosity of a distillate.
func checkViscosity(path string, nu units.KinematicViscosity) error {
	if within(nu.In(units.Centistokes), 0.4, 20) {
		return nil
	}
	return outside(path, number(nu.In(units.Centistokes))+" cSt", "0.4 to 20 cSt at 40 °C")
}
