package fuel

import (
	"errors"
	"math"

	"example.com/washrig/units"
)

// BaseTemperature is the temperature that volumes, densities and heating values
// of this package are at: 60 °F, at which fuel is sold in the United States.
func BaseTemperature() units.Temperature { return units.Fahrenheit(60) }

// DensityAt returns the density of the fuel at a temperature.
//
// Liquid petroleum fuels and blends of biodiesel follow the volume correction of
// ASTM D1250 for generalized products (tables 23B and 24B, the same as API MPMS
// 11.1 before pressure):
//
//	ρ = ρ60 · exp(−α·ΔT·(1 + 0.8·α·ΔT)),  α = K0/ρ60² + K1/ρ60 + K2
//
// ρ60 is the density at 60 °F in kg/m³ and ΔT the difference to 60 °F in °F; K0,
// K1 and K2 go with the range of ρ60 (gasolines below 770.5, a transition to
// 787.5, jet fuels and kerosenes to 838.5, diesels and fuel oils above). Biodiesel
// expands like a diesel of its density within 2 % of the expansion.
//
// Propane follows saturated liquid in the form of DIPPR equation 105,
//
//	ρ = ρ60 · s(T)/s(60 °F),  s = 1/B^(1 + (1 − T/Tc)^D)
//
// with B 0.27453, Tc 369.83 K and D 0.29359 (R. H. Perry, Chemical Engineers'
// Handbook, table 2-32). Against the reference equation of state of Lemmon,
// McLinden and Wagner (2009) the ratio is within 0.53 % from −60 to 160 °F
// (TestDensityAt_propaneSweep).
//
// Natural gas is an ideal gas at 14.696 psia: ρ = ρ60 · 519.67/(T + 459.67) with
// T in °F, which is its metering condition, not the pressure of a cylinder.
//
// Range: −60 to 160 °F. Outside it an error, since a fuel is then not what its
// row says.
//
// Errors: a *[units.FieldError] for t, or for a density of p that is not given.
func (p Properties) DensityAt(t units.Temperature) (units.Density, error) {
	if err := errors.Join(checkFuelTemperature("temperature", t), checkDensity("density", p.Density)); err != nil {
		return 0, err
	}
	return p.Density * units.Density(p.expansion(t)), nil
}

// expansion is the density at t over that at 60 °F.
func (p Properties) expansion(t units.Temperature) float64 {
	switch p.Kind {
	case Propane:
		return propaneSaturation(t.Kelvin()) / propaneSaturation(BaseTemperature().Kelvin())
	case NaturalGas:
		return BaseTemperature().Kelvin() / t.Kelvin()
	}
	return petroleumCorrection(float64(p.Density), t.Fahrenheit()-60)
}

// petroleumCorrection is ASTM D1250, generalized products: the density after a
// rise of dT °F from 60 °F over that at 60 °F, rho60, in kg/m³.
func petroleumCorrection(rho60, dT float64) float64 {
	var K0, K1, K2 float64
	switch {
	case rho60 < 770.5:
		K0, K1 = 192.4571, 0.2438
	case rho60 < 787.5:
		K0, K2 = 1489.0670, -0.00186840
	case rho60 < 838.5:
		K0 = 330.3010
	default:
		K0, K1 = 103.8720, 0.2701
	}
	alpha := K0/(rho60*rho60) + K1/rho60 + K2
	return math.Exp(-alpha * dT * (1 + 0.8*alpha*dT))
}

// propaneSaturation is DIPPR equation 105 for propane up to a factor; T in K.
func propaneSaturation(T float64) float64 {
	return math.Pow(0.27453, -(1 + math.Pow(1-T/369.83, 0.29359)))
}

// densityAtBase returns the density at 60 °F of a fuel that has rho at t.
func (p Properties) densityAtBase(rho units.Density, t units.Temperature) units.Density {
	if p.Kind == Propane || p.Kind == NaturalGas {
		return rho / units.Density(p.expansion(t))
	}
	// The correction changes by less than 1 in 500 for a change of 1 % in the
	// density it starts from, so each round gains two digits or more.
	p.Density = rho
	for range 12 {
		p.Density = rho / units.Density(p.expansion(t))
	}
	return p.Density
}

// checkFuelTemperature wants a fuel temperature of −60 to 160 °F.
func checkFuelTemperature(path string, t units.Temperature) error {
	if !t.Given() {
		return missing(path, "-60 to 160 °F")
	}
	if within(t.Fahrenheit(), -60-1e-9, 160+1e-9) {
		return nil
	}
	return outside(path, number(math.Round(t.Fahrenheit()*1e3)/1e3)+" °F", "-60 to 160 °F")
}

// checkDensity wants a density from a thin gas to a heavy oil.
func checkDensity(path string, rho units.Density) error {
	switch {
	case rho == 0:
		return missing(path, "more than 0 kg/m³")
	case within(float64(rho), 0.3, 1100):
		return nil
	}
	return outside(path, number(float64(rho))+" kg/m³", "0.3 to 1,100 kg/m³")
}
