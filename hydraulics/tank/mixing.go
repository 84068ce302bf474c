package tank

import (
	"math"

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
	var p problems
	within(&p, "volume", volume, 1e-9, 1e6)
	within(&p, "from", from, 1e-12, 1)
	switch {
	case to == 0:
		p.add("to", "", "more than 0; mixing never takes the last of it", units.ErrMissing)
	case !(to > 0 && to <= from):
		p.add("to", to.String(), "at most the share it falls from, "+from.String(), units.ErrConflict)
	}
	if err := p.join(); err != nil {
		return 0, err
	}
	return volume * units.Volume(math.Log(float64(from/to))), nil
}
