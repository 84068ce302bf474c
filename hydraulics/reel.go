package hydraulics

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Reel is the drum of a hose reel.
type Reel struct {
	Core      units.Length // diameter of the drum the first layer lies on
	Flange    units.Length // diameter of the discs
	Width     units.Length // between the discs
	Clearance units.Length // to keep free below the rim; zero: none
}

// A ReelFit is what a reel makes of a hose.
type ReelFit struct {
	Turns    int          // in a layer
	Layers   int          // that fit under the rim
	Capacity units.Length // of hose that fits
	Spare    units.Length // capacity less the hose's length; negative where it does not fit
	Used     int          // layers the hose takes, if it had room
	Outside  units.Length // diameter over the last layer it takes
	Bend     units.Length // radius of the hose's axis on the core: its tightest bend
}

// Fit winds a hose of an outside diameter and a length on the reel.
//
//	turns = ⌊ w/d ⌋,  layers = ⌊ (D_f − D_c − 2c)/(2 d) ⌋
//	capacity = π turns Σ ( D_c + (2 i − 1) d ),  i = 1 … layers
//
// w is the width, d the outside diameter of the hose, D_f, D_c and c flange, core and
// clearance. The turns lie on one another: a hose that beds between the turns below
// needs a little less height, one that is wound carelessly a good deal more.
func (r Reel) Fit(outside, length units.Length) (ReelFit, error) {
	var bad problem.List
	within(&bad, "core", r.Core, minBore, maxBore)
	within(&bad, "flange", r.Flange, float64(r.Core), maxBore)
	within(&bad, "width", r.Width, minBore, maxBore)
	atMost(&bad, "clearance", r.Clearance, maxBore)
	within(&bad, "outside", outside, 1e-4, maxBore)
	within(&bad, "length", length, minLength, maxLength)
	if bad != nil {
		return ReelFit{}, bad.Join()
	}
	core, d := float64(r.Core), float64(outside)
	whole := func(x float64) int { return int(math.Max(0, math.Floor(x*(1+1e-12)))) } // a width of exactly n hoses holds n
	fit := ReelFit{
		Turns:  whole(float64(r.Width) / d),
		Layers: whole((float64(r.Flange) - core - 2*float64(r.Clearance)) / (2 * d)),
		Bend:   units.Length((core + d) / 2),
	}
	// Σ over n layers of π turns (core + (2 i − 1) d) is π turns n (core + n d).
	wound := func(n int) float64 { return math.Pi * float64(fit.Turns) * float64(n) * (core + float64(n)*d) }
	fit.Capacity = units.Length(wound(fit.Layers))
	fit.Spare = fit.Capacity - length
	if fit.Turns > 0 {
		// Smallest n with wound(n) ≥ length: the root of d n² + core n = length/(π turns).
		s := float64(length) / (math.Pi * float64(fit.Turns))
		n := int(math.Ceil((math.Sqrt(core*core+4*d*s) - core) / (2 * d) * (1 - 1e-12)))
		fit.Used = max(n, 1)
		fit.Outside = units.Length(core + 2*float64(fit.Used)*d)
	}
	return fit, nil
}
