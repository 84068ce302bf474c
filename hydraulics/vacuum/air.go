package vacuum

import (
	"example.com/washrig/internal/air"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// An Air is the air outside, at the tool and at the outlet of the motors. Dry air
// is taken; at 95 °F and full humidity moist air is 2 % lighter.
type Air struct {
	Pressure    units.AbsolutePressure // of the place, 20 to 120 kPa
	Temperature units.Temperature      // 220 to 340 K
}

// StandardAir returns the air that the plates of vacuum motors speak of: one
// atmosphere and 20 °C, 1.204 kg/m³ or 0.0752 lb/ft³.
//
// Source: ASTM F558 for the air of such tests, 0.075 lb/ft³, from memory.
func StandardAir() Air {
	return Air{Pressure: units.AtmosphereAbsolute, Temperature: units.Celsius(20)}
}

// Validate returns every problem of a, joined in field order.
func (a Air) Validate() error {
	var p problem.List
	a.check(&p)
	return p.Join()
}

func (a Air) check(p *problem.List) {
	problem.Within(p, "pressure", a.Pressure, minAir, maxAir)
	switch t := a.Temperature.Kelvin(); {
	case !a.Temperature.Given():
		p.Add("temperature", "", "220 to 340 K", units.ErrMissing)
	case !(t >= coldest && t <= hottest):
		p.Add("temperature", a.Temperature.String(), "220 to 340 K", units.ErrRange)
	}
}

// Density returns the density of the air.
//
//	ρ = p/(R T),  R = 287.053 J/(kg·K)
//
// Source: U.S. Standard Atmosphere, 1976, Eq. 42. Errors: as [Air.Validate].
func (a Air) Density() (units.Density, error) {
	if err := a.Validate(); err != nil {
		return 0, err
	}
	g, err := a.gas()
	return units.Density(g.rho), err
}

// A gas is the outside air as numbers.
type gas struct {
	p   float64 // outside pressure, Pa
	rho float64 // outside density, kg/m³
	rt  float64 // p/ρ, J/kg
	mu  float64 // Pa·s
}

// gas returns the numbers of valid air.
func (a Air) gas() (gas, error) {
	p, t := float64(a.Pressure), a.Temperature.Kelvin()
	rho, err := air.Density(p, t)
	if err != nil {
		return gas{}, err
	}
	mu, err := air.Viscosity(t)
	if err != nil {
		return gas{}, err
	}
	return gas{p, rho, p / rho, mu}, nil
}
