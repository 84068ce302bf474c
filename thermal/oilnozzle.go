package thermal

import (
	"math"

	"example.com/washrig/units"
)

// Oil nozzles are rated at 100 psi.
const (
	nozzleRatingPressure = 100 * units.PSI
	mostOilPressure      = 1000 * units.PSI
)

// NozzleFlow returns what an oil nozzle passes at a pressure.
//
//	V̇ = V̇100·√(p/100 psi)
//
// rating is the flow printed on the nozzle, which holds at 100 psi only. Nozzles
// are made to ±5 %.
//
// Range: pressure above 0 up to 1,000 psi; makers state the law for 75 to 300 psi.
//
// Source: orifice law; common to all makers' tables.
func NozzleFlow(rating units.FuelRate, oil units.Pressure) (units.FuelRate, error) {
	if err := all(inside("rating", rating, 0, mostFuel), positive("pressure", oil, mostOilPressure)); err != nil {
		return 0, err
	}
	return units.FuelRate(float64(rating) * math.Sqrt(float64(oil/nozzleRatingPressure))), nil
}

// NozzlePressure returns the oil pressure at which a nozzle passes the flow wanted:
// the inverse of [NozzleFlow]. A pressure above 1,000 psi is refused.
func NozzlePressure(rating, want units.FuelRate) (units.Pressure, error) {
	if err := all(positive("rating", rating, mostFuel), positive("want", want, mostFuel)); err != nil {
		return 0, err
	}
	r := float64(want / rating)
	p := units.Pressure(float64(nozzleRatingPressure) * r * r)
	if p > mostOilPressure || p == 0 {
		return 0, refuse("want", want.String(), "a flow this nozzle passes below "+mostOilPressure.String(), units.ErrRange)
	}
	return p, nil
}

// NozzleRating returns the rating of the nozzle that passes the flow wanted at an
// oil pressure. Nozzles come in steps; choose the neighbours and set the pressure
// by [NozzlePressure].
func NozzleRating(want units.FuelRate, oil units.Pressure) (units.FuelRate, error) {
	if err := all(inside("want", want, 0, mostFuel), inside("pressure", oil, 1*units.PSI, mostOilPressure)); err != nil {
		return 0, err
	}
	return units.FuelRate(float64(want) / math.Sqrt(float64(oil/nozzleRatingPressure))), nil
}

// An Oil is liquid fuel at a temperature.
type Oil struct {
	Density   units.Density
	Viscosity units.KinematicViscosity
}

// NozzleOilFactor returns the flow of a nozzle with one oil over that with the oil
// it was rated with, at the same pressure.
//
//	V̇/V̇0 = √(ρ0/ρ)·(ν/ν0)^0.02·(ρ/ρ0)^0.01
//
// Dense oil passes less by volume. In the swirl chamber of a pressure nozzle
// viscosity slows the swirl and thins the core of air, so thicker oil passes a
// little *more*, until it no longer atomises; the exponent is the weak dependence
// Cd ∝ Re^−0.02 of a correlation for large simplex nozzles. Small nozzles respond
// more strongly, by several per cent between warm and cold oil, so the viscosity
// part is a lower bound.
//
// Range: densities 600 to 1,100 kg/m³, viscosities 0.5 to 50 mm²/s.
//
// Source: orifice law; A. R. Jones, "Design optimization of a large pressure-jet
// atomizer for power plant", Proceedings of the 2nd International Conference on
// Liquid Atomization and Spray Systems, 1982, as quoted by A. H. Lefebvre,
// Atomization and Sprays, chapter 5 (exponent from memory).
func NozzleOilFactor(now, rated Oil) (units.Ratio, error) {
	if err := all(now.validate("now"), rated.validate("rated")); err != nil {
		return 0, err
	}
	rho := float64(rated.Density / now.Density)
	// Re ∝ √(2Δp/ρ)/ν: at equal pressure Re/Re0 = √(ρ0/ρ)·ν0/ν.
	re := math.Sqrt(rho) * float64(rated.Viscosity/now.Viscosity)
	return units.Ratio(math.Sqrt(rho) * math.Pow(re, -0.02)), nil
}

func (o Oil) validate(path string) error {
	const mm2 = units.Centistokes
	return units.At(path, all(
		inside("density", o.Density, 600*units.KilogramPerCubicMeter, 1100*units.KilogramPerCubicMeter),
		inside("viscosity", o.Viscosity, 0.5*mm2, 50*mm2),
	))
}

// OilDensity returns the density of fuel oil at a temperature, from that at 15 °C.
//
//	ρ = ρ15·exp[−α Δt (1 + 0.8 α Δt)],  α = 186.9696/ρ15² + 0.4862/ρ15
//
// Δt is counted from 15 °C, ρ in kg/m³. A tank of oil filled warm holds less fuel:
// 1 % for 12 K.
//
// Range: 838 to 1,075 kg/m³ at 15 °C (fuel oils, diesel), −20 °C to 90 °C.
//
// Source: API Manual of Petroleum Measurement Standards, chapter 11.1 (1980),
// ASTM D1250, Table 54B, constants of fuel oils (from memory).
func OilDensity(at15 units.Density, at units.Temperature) (units.Density, error) {
	if err := all(
		inside("density", at15, 838*units.KilogramPerCubicMeter, 1075*units.KilogramPerCubicMeter),
		between("at", at, units.Celsius(-20), units.Celsius(90)),
	); err != nil {
		return 0, err
	}
	rho := float64(at15)
	x := (186.9696/rho + 0.4862) / rho * (at.Celsius() - 15)
	return units.Density(rho * math.Exp(-x*(1+0.8*x))), nil
}

// An OilViscosityLine is the viscosity of an oil at all temperatures, from two.
type OilViscosityLine struct {
	Cold, Hot     units.KinematicViscosity
	AtCold, AtHot units.Temperature
}

// At returns the viscosity at a temperature.
//
//	log log(ν + 0.7) = A − B log T
//
// ν in mm²/s, T in K, A and B from the two points.
//
// Range: points from −40 °C to 150 °C at least 5 K apart, viscosities 0.5 to 2,000
// mm²/s falling with temperature, the result up to 20,000 mm²/s.
//
// Source: ASTM D341, Walther's equation in the form for ν above 2 mm²/s, which is
// 0.1 mm²/s off at 1 mm²/s.
func (l OilViscosityLine) At(at units.Temperature) (units.KinematicViscosity, error) {
	const mm2 = units.Centistokes
	lo, hi := units.Celsius(-40), units.Celsius(150)
	if err := all(
		inside("cold", l.Cold, 0.5*mm2, 2000*mm2), inside("hot", l.Hot, 0.5*mm2, 2000*mm2),
		between("atCold", l.AtCold, lo, hi), between("atHot", l.AtHot, lo, hi), between("at", at, lo, hi),
	); err != nil {
		return 0, err
	}
	if l.AtHot.Sub(l.AtCold) < 5 {
		return 0, refuse("atHot", l.AtHot.String(), "5 K or more above "+l.AtCold.String(), units.ErrConflict)
	}
	if l.Hot >= l.Cold {
		return 0, refuse("hot", l.Hot.String(), "less than "+l.Cold.String()+", the viscosity of the colder oil", units.ErrConflict)
	}
	w := func(nu units.KinematicViscosity) float64 { return math.Log(math.Log(nu.In(mm2) + 0.7)) }
	x := math.Log(at.Kelvin()/l.AtCold.Kelvin()) / math.Log(l.AtHot.Kelvin()/l.AtCold.Kelvin())
	nu := math.Exp(math.Exp(w(l.Cold)+x*(w(l.Hot)-w(l.Cold)))) - 0.7
	if !(nu > 0 && nu <= 20000) {
		return 0, refuse("at", at.String(), "a temperature at which the oil still flows", units.ErrRange)
	}
	return units.KinematicViscosity(nu) * mm2, nil
}
