package vacuum

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// IsothermalFlow returns the mass flow of a gas through a pipe between two
// pressures.
//
//	(ṁ/A)² [ f L/d + 2 ln(p₁/p₂) ] = (p₁² − p₂²) ρ₁/p₁
//
// f is the Darcy friction factor, L and d length and bore, A the area of the bore,
// p₁ and p₂ the absolute pressures before and behind, ρ₁ the density at p₁. The gas
// is ideal and keeps its temperature, as in a hose that lies in the open.
//
// Range: p₂ above the critical pressure ([IsothermalCritical]); below it the flow
// no longer rises.
//
// Errors: a *[units.FieldError] for each input.
//
// Source: the equation of Weymouth before his friction factor is put in; textbooks
// of gas dynamics under isothermal flow with friction.
func IsothermalFlow(p1, p2 units.AbsolutePressure, rho1 units.Density, f float64, length, bore units.Length) (units.MassFlow, error) {
	var p problem.List
	pipe(&p, p1, rho1, f, length, bore)
	if !(p2 > 0 && p2 <= p1) {
		p.Add("p2", p2.String(), "more than 0, at most the pressure before", units.ErrConflict)
	}
	if err := p.Join(); err != nil {
		return 0, err
	}
	fl := f * float64(length) / float64(bore)
	r := float64(p2) / float64(p1)
	if c := criticalRatio(fl); r < c {
		p.Add("p2", p2.String(), "at least the critical pressure, "+units.AbsolutePressure(c*float64(p1)).String(), units.ErrRange)
		return 0, p.Join()
	}
	G2 := (1 - r*r) * float64(p1) * float64(rho1) / (fl - 2*math.Log(r))
	return units.MassFlow(math.Sqrt(G2) * circle(float64(bore))), nil
}

// IsothermalOutlet returns the pressure behind a pipe through which a gas flows:
// the equation of [IsothermalFlow] solved for p₂.
//
// Errors: a *[units.FieldError] for each input; ErrRange for a flow above the
// critical one, which no vacuum can draw.
func IsothermalOutlet(p1 units.AbsolutePressure, rho1 units.Density, f float64, length, bore units.Length, flow units.MassFlow) (units.AbsolutePressure, error) {
	var p problem.List
	pipe(&p, p1, rho1, f, length, bore)
	problem.Between(&p, "flow", flow, 0, 1e6)
	if err := p.Join(); err != nil {
		return 0, err
	}
	fl := f * float64(length) / float64(bore)
	G := float64(flow) / circle(float64(bore))
	K := G * G / (float64(p1) * float64(rho1)) // 1 − r² = K (fl − 2 ln r)
	c := criticalRatio(fl)
	if most := (1 - c*c) / (fl - 2*math.Log(c)); K > most {
		p.Add("flow", flow.String(), "at most the critical flow, "+units.MassFlow(float64(flow)*math.Sqrt(most/K)).String(), units.ErrRange)
		return 0, p.Join()
	}
	r, _, err := root.Bracketed(func(r float64) float64 { return 1 - r*r - K*(fl-2*math.Log(r)) }, c, 1, 0)
	if err != nil { // the flow is the critical one to the last digit
		r = c
	}
	return units.AbsolutePressure(r * float64(p1)), nil
}

// IsothermalCritical returns the pressure behind a pipe at which the flow of a gas
// is greatest and stays so however far the pressure falls.
//
//	f L/d = (p₁/p₂)² − 1 − 2 ln(p₁/p₂)
//
// Errors: a *[units.FieldError] for each input.
func IsothermalCritical(p1 units.AbsolutePressure, f float64, length, bore units.Length) (units.AbsolutePressure, error) {
	var p problem.List
	pipe(&p, p1, 1, f, length, bore)
	if err := p.Join(); err != nil {
		return 0, err
	}
	return units.AbsolutePressure(criticalRatio(f*float64(length)/float64(bore)) * float64(p1)), nil
}

// criticalRatio solves for r = p₂/p₁: y − 1 − ln y = f L/d with y = 1/r².
func criticalRatio(fl float64) float64 {
	y := 1 + fl + math.Sqrt(2*fl) // above the root: y − 1 − ln y there is at least fl
	for range 200 {
		next := y - (y-1-math.Log(y)-fl)/(1-1/y)
		if !(math.Abs(next-y) > 1e-15*y) {
			break
		}
		y = next
	}
	return 1 / math.Sqrt(y)
}

func pipe(p *problem.List, p1 units.AbsolutePressure, rho1 units.Density, f float64, length, bore units.Length) {
	problem.Within(p, "p1", p1, 1, 1e9)
	problem.Within(p, "rho1", rho1, 1e-6, 1e5)
	problem.Number(p, "f", f, 1e-6, 1e3)
	problem.Within(p, "length", length, 1e-3, 1e7)
	problem.Within(p, "bore", bore, minBore, 100)
}
