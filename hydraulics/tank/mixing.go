package tank

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// FlushVolume returns how much fresh water must run through a well-mixed tank until
// the share of what was in it has fallen from one value to another.
//
//	V_f = V ln(from/to)
//
// V is what the tank holds meanwhile. To a tenth takes 2.3 fillings, to a hundredth
// 4.6; emptying first and filling once with rinse water takes one. [System.Run] follows
// any sequence of valves and several tanks.
func FlushVolume(volume units.Volume, from, to units.Ratio) (units.Volume, error) {
	var p problem.List
	problem.Within(&p, "volume", volume, 1e-9, 1e6)
	problem.Within(&p, "from", from, 1e-12, 1)
	switch {
	case to == 0:
		p.Add("to", "", "more than 0; mixing never takes the last of it", units.ErrMissing)
	case !(to > 0 && to <= from):
		p.Add("to", to.String(), "at most the share it falls from, "+from.String(), units.ErrConflict)
	}
	if err := p.Join(); err != nil {
		return 0, err
	}
	return volume * units.Volume(math.Log(float64(from/to))), nil
}
