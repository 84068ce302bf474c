package vacuum

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// CarryVelocity returns the speed of the air at and above which it carries water
// up a riser as film and drops; below it the water gathers into slugs.
//
//	v = 3.1 [ σ g (ρ_l − ρ_g) ]^¼ / √ρ_g
//
// σ is the surface tension, ρ_l and ρ_g the densities. The speed is superficial: as
// if the air had the bore to itself. The number 3.1 is a Kutateladze number; the
// bore does not enter.
//
// Range: vertical pipes of an inch and more, little liquid. In a level hose water
// also creeps along the bottom at less; 4,000 ft/min, common practice for a hose,
// lies 40 % above this at sea level.
//
// Source: Y. Taitel, D. Barnea and A. E. Dukler, "Modelling flow pattern
// transitions for steady upward gas–liquid flow in vertical tubes", AIChE J.
// 26(3), 1980, pp. 345–354 (the constant from memory). [TurnerVelocity] is the
// same law with 1 % less.
//
// Errors: a *[units.FieldError] for air or liquid.
func CarryVelocity(outside Air, l Liquid) (units.Velocity, error) {
	g, err := pair(outside, l)
	if err != nil {
		return 0, err
	}
	return units.Velocity(kutateladze(3.1, g.rho, float64(l.Density), float64(l.SurfaceTension))), nil
}

func kutateladze(k, rhog, rhol, sigma float64) float64 {
	return k * math.Sqrt(math.Sqrt(sigma*gravity*(rhol-rhog))/rhog)
}

// TurnerVelocity returns the speed of gas that holds the largest drop of a liquid
// aloft.
//
//	v = 1.593 [ σ (ρ_l − ρ_g) ]^¼ / √ρ_g   ft/s, with σ in dyn/cm and ρ in lb/ft³
//
// With the margin of 20 % that fits gas wells the constant is 1.912: multiply by
// 1.2.
//
// Source: R. G. Turner, M. G. Hubbard and A. E. Dukler, "Analysis and prediction of
// minimum flow rate for the continuous removal of liquids from gas wells", J.
// Petroleum Technology 21, 1969, pp. 1475–1482 (the constant from memory).
//
// Errors: a *[units.FieldError] for air or liquid.
func TurnerVelocity(outside Air, l Liquid) (units.Velocity, error) {
	g, err := pair(outside, l)
	if err != nil {
		return 0, err
	}
	const perCubicFoot = float64(units.PoundPerCubicFoot)
	s := float64(l.SurfaceTension) * 1e3 // dyn/cm
	v := 1.593 * math.Pow(s*(float64(l.Density)-g.rho)/perCubicFoot, 0.25) / math.Sqrt(g.rho/perCubicFoot)
	return units.Velocity(v) * units.FootPerSecond, nil
}

// FloodingVelocity returns the superficial speed of the air at which water can no
// longer run down an upright pipe against it.
//
//	√j_g* + √j_l* = C,  j_k* = j_k √( ρ_k / (g d (ρ_l − ρ_g)) )
//
// j_l is the superficial speed of the water that runs down (zero for the last
// drop), d the bore, C 0.725 with sharp ends, 0.9 with rounded ends, 1 at most. Air
// slower than this lets part of the water of a riser fall back.
//
// Range: C from 0.5 to 1.2; j_l* at most C². Unlike [CarryVelocity] it grows with
// √d, and is the greater of the two above about 3 in.
//
// Source: G. B. Wallis, One-dimensional Two-phase Flow, McGraw-Hill, 1969, chapter
// 11 (the constants from memory).
//
// Errors: a *[units.FieldError] for each input.
func FloodingVelocity(outside Air, l Liquid, bore units.Length, C float64, down units.Velocity) (units.Velocity, error) {
	g, err := pair(outside, l)
	var p problem.List
	p.Take("", err)
	problem.Within(&p, "bore", bore, minBore, maxBore)
	problem.Number(&p, "C", C, 0.5, 1.2)
	problem.Between(&p, "down", down, 0, 1e3)
	if err := p.Join(); err != nil {
		return 0, err
	}
	rhol := float64(l.Density)
	scale := gravity * float64(bore) * (rhol - g.rho)
	s := C - math.Sqrt(float64(down)*math.Sqrt(rhol/scale))
	if s < 0 {
		most := square(square(C)) * scale / rhol
		p.Add("down", down.String(), "at most what runs down in still air, "+units.Velocity(math.Sqrt(most)).String(), units.ErrRange)
		return 0, p.Join()
	}
	return units.Velocity(s * s * math.Sqrt(scale/g.rho)), nil
}

func pair(outside Air, l Liquid) (gas, error) {
	var p problem.List
	p.Take("air", outside.Validate())
	p.Take("liquid", l.Validate())
	if err := p.Join(); err != nil {
		return gas{}, err
	}
	g, err := outside.gas()
	return g, units.At("air", err)
}
