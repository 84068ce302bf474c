package hydraulics

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// The duty at which a nozzle number is read: N gpm at 4000 psi.
const (
	ratedPressure = 4000 * units.PSI
	ratedFlow     = units.GallonPerMinute
)

// NozzleFlow returns the flow through a nozzle.
//
//	q = N √(p/4000)
//
// N is the trade number, p the gauge pressure at the nozzle in psi, q the flow in
// US gpm, metered cold. A pressure of zero gives no flow.
//
// Source: trade convention, no standard behind it (common practice).
func NozzleFlow(n units.NozzleNumber, p units.Pressure) (units.VolumeFlow, error) {
	var bad problem.List
	within(&bad, "number", n, minNumber, maxNumber)
	atMost(&bad, "pressure", p, maxPressure)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.VolumeFlow(float64(n) * float64(ratedFlow) * math.Sqrt(float64(p)/float64(ratedPressure))), nil
}

// NozzlePressure returns the pressure a flow makes at a nozzle.
//
//	p = 4000 (q/N)²
//
// Symbols and source are those of [NozzleFlow]. A pump that displaces a fixed
// flow makes this pressure whatever its gauge was meant to show.
func NozzlePressure(n units.NozzleNumber, q units.VolumeFlow) (units.Pressure, error) {
	var bad problem.List
	within(&bad, "number", n, minNumber, maxNumber)
	atMost(&bad, "flow", q, maxFlow)
	if bad != nil {
		return 0, bad.Join()
	}
	r := float64(q) / (float64(n) * float64(ratedFlow))
	return units.Pressure(float64(ratedPressure) * r * r), nil
}

// NozzleNumberFor returns the number that passes flow q at pressure p.
//
//	N = q √(4000/p)
//
// Symbols and source are those of [NozzleFlow]. The result is exact, not a
// stocked size: see [Neighbours].
func NozzleNumberFor(q units.VolumeFlow, p units.Pressure) (units.NozzleNumber, error) {
	var bad problem.List
	within(&bad, "flow", q, minFlow, maxFlow)
	within(&bad, "pressure", p, minPressure, maxPressure)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.NozzleNumber(float64(q) / float64(ratedFlow) * math.Sqrt(float64(ratedPressure)/float64(p))), nil
}

// Neighbours returns the stocked numbers next to n: the largest that does not
// exceed it and the smallest that is not below it, the same one twice where the
// exact number is stocked. Where the stock ends on one side that result is zero,
// which is no number. The stock may be in any order.
func Neighbours(stock []units.NozzleNumber, n units.NozzleNumber) (below, above units.NozzleNumber, err error) {
	var bad problem.List
	within(&bad, "number", n, minNumber, maxNumber)
	if len(stock) == 0 {
		bad.Add("stock", "", "at least one number", units.ErrMissing)
	}
	for i, s := range stock {
		if !(s >= minNumber && s <= maxNumber) {
			bad.Add("stock[#"+problem.Format(float64(i+1))+"]", s.String(), "more than 0", units.ErrRange)
		}
	}
	if bad != nil {
		return 0, 0, bad.Join()
	}
	for _, s := range stock {
		if s <= n && s > below {
			below = s
		}
		if s >= n && (above == 0 || s < above) {
			above = s
		}
	}
	return below, above, nil
}

// OrificeFlow returns the flow of a liquid through an orifice into air.
//
//	q = c (π/4) d² √(2 p/ρ)
//
// d is the bore, c the coefficient of discharge, p the gauge pressure before the
// orifice, ρ the density. In gpm, inches and psi this is q = 29.84 c d² √p, where
// the constant is 29.83 at 62.4 lb/ft³ and 29.85 at 20 °C.
//
// Range: 0 < c ≤ 1; the liquid must neither flash nor cavitate.
//
// Source: NFPA 291, which prints 29.84 in one edition and 29.83 in others.
func OrificeFlow(bore units.Length, c float64, p units.Pressure, rho units.Density) (units.VolumeFlow, error) {
	var bad problem.List
	within(&bad, "bore", bore, minBore, maxBore)
	problem.Number(&bad, "discharge", c, 1e-6, 1)
	atMost(&bad, "pressure", p, maxPressure)
	within(&bad, "density", rho, minDensity, maxDensity)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.VolumeFlow(c * math.Pi / 4 * float64(bore) * float64(bore) * math.Sqrt(2*float64(p)/float64(rho))), nil
}

// NozzleBore returns the bore of an orifice with coefficient of discharge c that
// has the trade number n in water of [ReferenceDensity].
func NozzleBore(n units.NozzleNumber, c float64) (units.Length, error) {
	var bad problem.List
	within(&bad, "number", n, minNumber, maxNumber)
	problem.Number(&bad, "discharge", c, 1e-6, 1)
	if bad != nil {
		return 0, bad.Join()
	}
	v := math.Sqrt(2 * float64(ratedPressure) / float64(ReferenceDensity))
	return units.Length(math.Sqrt(float64(n) * float64(ratedFlow) / (c * math.Pi / 4 * v))), nil
}

// NozzleNumberOfBore is the inverse of [NozzleBore].
func NozzleNumberOfBore(bore units.Length, c float64) (units.NozzleNumber, error) {
	q, err := OrificeFlow(bore, c, ratedPressure, ReferenceDensity)
	return units.NozzleNumber(float64(q) / float64(ratedFlow)), err
}

// JetSpeed returns the speed of an ideal jet.
//
//	v = √(2 p/ρ)
func JetSpeed(p units.Pressure, rho units.Density) (units.Velocity, error) {
	var bad problem.List
	atMost(&bad, "pressure", p, maxPressure)
	within(&bad, "density", rho, minDensity, maxDensity)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.Velocity(math.Sqrt(2 * float64(p) / float64(rho))), nil
}

// ReactionForce returns the thrust of an ideal straight jet on whoever holds it.
//
//	F = ρ q v = q √(2 ρ p)
//
// q is the flow at density ρ, p the nozzle pressure. In lbf, gpm and psi this is
// 0.0526 q √p. A fan spreads the jet and pushes a little less; a real jet is a
// little slower than v. The result is an upper bound by a few per cent.
//
// Source: momentum theorem; fire-service texts round the constant to 0.0505 for
// fog nozzles and write 1.57 d² p, with π/2 rounded, for smooth bores.
func ReactionForce(q units.VolumeFlow, p units.Pressure, rho units.Density) (units.Force, error) {
	var bad problem.List
	atMost(&bad, "flow", q, maxFlow)
	atMost(&bad, "pressure", p, maxPressure)
	within(&bad, "density", rho, minDensity, maxDensity)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.Force(float64(q) * math.Sqrt(2*float64(rho)*float64(p))), nil
}

// WearAtLoss returns the growth of a nozzle's flow area that costs a share of its
// pressure at constant flow.
//
//	x = 1/√(1 − loss) − 1
//
// The usual point of replacement is a loss of 10 % (common practice): 5.4 % more area.
// Behind a regulating unloader that still bypasses, wear costs no pressure; it eats the
// bypass.
func WearAtLoss(loss units.Ratio) (units.Ratio, error) {
	var bad problem.List
	problem.Number(&bad, "loss", float64(loss), 0, 0.999999)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.Ratio(1/math.Sqrt(1-float64(loss)) - 1), nil
}

// LossAtWear is the inverse of [WearAtLoss]: the share of pressure that is gone at
// constant flow when the area has grown by x, 1 − 1/(1+x)².
func LossAtWear(wear units.Ratio) (units.Ratio, error) {
	var bad problem.List
	problem.Number(&bad, "wear", float64(wear), 0, 1e6)
	if bad != nil {
		return 0, bad.Join()
	}
	x := 1 + float64(wear)
	return units.Ratio(1 - 1/(x*x)), nil
}

// SprayWidth returns the width a fan covers at a stand-off.
//
//	b = 2 s tan(θ/2)
//
// s is the distance from tip to surface, θ the spray angle, which is plated at one
// pressure and for a free fan: the real one narrows with distance.
func SprayWidth(angle units.Angle, standoff units.Length) (units.Length, error) {
	var bad problem.List
	problem.Number(&bad, "angle", float64(angle), 0, math.Pi*0.999)
	atMost(&bad, "standoff", standoff, maxBore)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.Length(2 * float64(standoff) * math.Tan(float64(angle)/2)), nil
}

// SplitNumber returns the number of each of several equal tips on one tool that together
// pass what one tip of number total passes: a surface cleaner's bar.
func SplitNumber(total units.NozzleNumber, tips int) (units.NozzleNumber, error) {
	var bad problem.List
	within(&bad, "total", total, minNumber, maxNumber)
	problem.Number(&bad, "tips", float64(tips), 1, 1000)
	if bad != nil {
		return 0, bad.Join()
	}
	return total / units.NozzleNumber(tips), nil
}
