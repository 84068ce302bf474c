package fuel

import (
	"errors"

	"example.com/washrig/units"
)

// A Certificate is what a supplier's certificate of analysis says of one
// delivery. What it does not say is left at zero and stays as the table has it.
type Certificate struct {
	Density         units.Density            // at DensityAt
	DensityAt       units.Temperature        // not given: 60 °F
	Higher          HigherHeatingValue       // per volume at 60 °F
	Lower           LowerHeatingValue        // per volume at 60 °F
	CarbonDioxide   EmissionFactor           // per volume at 60 °F; given if either part is
	Cold            ColdLimits               // each limit on its own
	Viscosity       units.KinematicViscosity // at 40 °C
	ColdViscosity   units.KinematicViscosity // a second one, at ColdViscosityAt
	ColdViscosityAt units.Temperature        // required with ColdViscosity
}

// With returns the fuel as a certificate has it.
//
// Heating values of the table are kept per volume, so a certificate that gives
// density alone does not change them; one that gives heat by mass is converted
// by its own density ([HigherByMass], [LowerByMass]).
//
// Errors: a *[units.FieldError] for each value that no fuel has, of p itself under
// "properties.…", and ErrConflict where values cannot belong to one fuel: a lower heating value that is not below
// the higher by 3 to 15 %, a gel point above the cloud point, two viscosities
// that do not fall with temperature.
func (p Properties) With(c Certificate) (Properties, error) {
	if err := p.Validate(); err != nil {
		return Properties{}, units.At("properties", err)
	}
	var errs []error
	at := BaseTemperature()
	if c.DensityAt.Given() {
		at = c.DensityAt
		errs = append(errs, checkFuelTemperature("densityAt", at))
	}
	if c.Density != 0 {
		errs = append(errs, checkDensity("density", c.Density))
	}
	if c.Higher != 0 {
		errs = append(errs, checkHeatingValue("higher", c.Higher.ByVolume()))
		p.Higher = c.Higher
	}
	if c.Lower != 0 {
		errs = append(errs, checkHeatingValue("lower", c.Lower.ByVolume()))
		p.Lower = c.Lower
	}
	if c.CarbonDioxide != (EmissionFactor{}) {
		errs = append(errs,
			checkEmission("carbonDioxide.fossil", c.CarbonDioxide.Fossil),
			checkEmission("carbonDioxide.biogenic", c.CarbonDioxide.Biogenic))
		p.CarbonDioxide = c.CarbonDioxide
	}
	for _, l := range []struct{ to, from *units.Temperature }{
		{&p.Cold.Cloud, &c.Cold.Cloud}, {&p.Cold.Gel, &c.Cold.Gel}, {&p.Cold.Boiling, &c.Cold.Boiling},
	} {
		if l.from.Given() {
			*l.to = *l.from
		}
	}
	errs = append(errs, units.At("cold", checkColdLimits(p.Cold)))
	if c.Viscosity != 0 {
		errs = append(errs, checkViscosity("viscosity", c.Viscosity))
		p.Viscosity = c.Viscosity
		if p.ViscositySlope == 0 {
			p.ViscositySlope = distillateSlope
		}
	}
	if c.ColdViscosity != 0 {
		errs = append(errs, c.slope(&p))
	}
	if err := errors.Join(errs...); err != nil {
		return Properties{}, err
	}
	if c.Density != 0 {
		p.Density = p.densityAtBase(c.Density, at)
		if err := checkDensity("density", p.Density); err != nil {
			return Properties{}, err
		}
	}
	if ratio := float64(p.Higher) / float64(p.Lower); (c.Higher != 0 || c.Lower != 0) && !within(ratio, 1.03, 1.15) {
		return Properties{}, &units.FieldError{
			Path:  "lower",
			Value: p.Lower.String(),
			Want:  "3 to 15 % below the higher, " + p.Higher.String(),
			Err:   units.ErrConflict,
		}
	}
	return p, nil
}

// slope sets the viscosity slope of p from the second viscosity of c.
func (c Certificate) slope(p *Properties) error {
	if !c.ColdViscosityAt.Given() {
		return missing("coldViscosityAt", "the temperature of the second viscosity")
	}
	if err := checkFuelTemperature("coldViscosityAt", c.ColdViscosityAt); err != nil {
		return err
	}
	if p.Viscosity == 0 {
		return missing("viscosity", "the viscosity at 40 °C beside the second one")
	}
	nu40, nu, T := p.Viscosity.In(units.Centistokes), c.ColdViscosity.In(units.Centistokes), c.ColdViscosityAt.Kelvin()
	B := 0.0
	if within(nu, 0.4, 1e4) && T != 313.15 {
		B = waltherSlope(nu40, 313.15, nu, T)
	}
	if !within(B, 1, 10) {
		return &units.FieldError{
			Path:  "coldViscosity",
			Value: number(nu) + " cSt",
			Want:  "a viscosity that falls with temperature like that of an oil",
			Err:   units.ErrConflict,
		}
	}
	p.ViscositySlope = B
	return nil
}

// HigherByMass turns a higher heating value by mass into one by volume.
//
// Errors: a *[units.FieldError] for a heat or density no fuel has.
func HigherByMass(h units.HeatingValueByMass, rho units.Density) (HigherHeatingValue, error) {
	v, err := byMass(h, rho)
	return HigherHeatingValue(v), err
}

// LowerByMass turns a lower heating value by mass into one by volume.
//
// Errors: a *[units.FieldError] for a heat or density no fuel has.
func LowerByMass(h units.HeatingValueByMass, rho units.Density) (LowerHeatingValue, error) {
	v, err := byMass(h, rho)
	return LowerHeatingValue(v), err
}

func byMass(h units.HeatingValueByMass, rho units.Density) (units.HeatingValueByVolume, error) {
	err := checkDensity("density", rho)
	switch {
	case h == 0:
		err = errors.Join(missing("heat", "more than 0 BTU/lb"), err)
	case !within(float64(h), 1e6, 2e8):
		err = errors.Join(outside("heat", number(h.In(units.BTUPerPound))+" BTU/lb", "430 to 86,000 BTU/lb"), err)
	}
	if err != nil {
		return 0, err
	}
	return units.HeatingValueByVolume(float64(h) * float64(rho)), nil
}

// checkEmission wants a mass of carbon dioxide that a volume of fuel can make.
func checkEmission(path string, f units.Density) error {
	if within(float64(f), 0, 5000) {
		return nil
	}
	return outside(path, number(float64(f))+" kg/m³", "0 to 5,000 kg of carbon dioxide a cubic metre of fuel")
}
