package hydraulics

import (
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// ReferenceDensity is the density at which a nozzle number is defined: water at
// 60 °F and one atmosphere, 999.016 kg/m³ by IAPWS-IF97.
const ReferenceDensity = 999.016 * units.KilogramPerCubicMeter

// A Fluid is what the friction laws need to know of a liquid. This package does
// not know water from oil: the caller passes the values at the temperature and
// pressure of the section.
type Fluid struct {
	Density   units.Density
	Viscosity units.DynamicViscosity
}

// Given reports whether either value was set.
func (f Fluid) Given() bool { return f != Fluid{} }

// ok is the quick test; check says what is wrong.
func (f Fluid) ok() bool {
	return f.Density >= minDensity && f.Density <= maxDensity &&
		f.Viscosity >= minViscosity && f.Viscosity <= maxViscosity
}

func (f Fluid) check(p *problem.List, path string) {
	within(p, path+".density", f.Density, minDensity, maxDensity)
	within(p, path+".viscosity", f.Viscosity, minViscosity, maxViscosity)
}
