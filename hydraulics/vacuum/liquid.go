package vacuum

import (
	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// A Liquid is what the recovery tool takes up.
type Liquid struct {
	Density        units.Density
	Viscosity      units.DynamicViscosity
	SurfaceTension units.SurfaceTension
}

// Water returns clean water at a temperature and one atmosphere. Soil makes it a
// little heavier, detergent halves its surface tension.
//
// Range: 0.01 to 99 °C. Errors: a *[units.FieldError] for the temperature.
//
// Source: IAPWS R7-97(2012), R12-08, R1-76(2014).
func Water(t units.Temperature) (Liquid, error) {
	switch {
	case !t.Given():
		return Liquid{}, &units.FieldError{Path: "temperature", Want: "0.01 to 99 °C", Err: units.ErrMissing}
	case !(t.Celsius() >= 0.01 && t.Celsius() <= 99):
		return Liquid{}, &units.FieldError{Path: "temperature", Value: t.String(), Want: "0.01 to 99 °C", Err: units.ErrRange}
	}
	s, err := water.At(float64(units.AtmosphereAbsolute), t.Kelvin())
	if err != nil {
		return Liquid{}, units.At("temperature", err)
	}
	sigma, err := water.SurfaceTension(t.Kelvin())
	if err != nil {
		return Liquid{}, units.At("temperature", err)
	}
	return Liquid{units.Density(s.Density), units.DynamicViscosity(s.Viscosity), units.SurfaceTension(sigma)}, nil
}

// Given reports whether any value of l was set.
func (l Liquid) Given() bool { return l != Liquid{} }

// Validate returns every problem of l, joined in field order.
func (l Liquid) Validate() error {
	var p problem.List
	l.check(&p)
	return p.Join()
}

func (l Liquid) check(p *problem.List) {
	problem.Within(p, "density", l.Density, minDensity, maxDensity)
	problem.Within(p, "viscosity", l.Viscosity, minViscosity, maxViscosity)
	problem.Within(p, "surfaceTension", l.SurfaceTension, minTension, maxTension)
}
