package rig

import (
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/fields"
	"example.com/washrig/units"
)

// A SuctionAnswer is the suction head of a pump in one state, term by term, and
// what each change to the line would gain, the greatest gain first.
type SuctionAnswer struct {
	State State
	Head  tank.SuctionHead
	Cures []tank.Cure
}

// hoseSteps are the nominal sizes of suction hose that are looked at as the next
// larger one (ISO 1307).
var hoseSteps = [...]units.Length{0.75 * units.Inch, 1 * units.Inch, 1.25 * units.Inch, 1.5 * units.Inch, 2 * units.Inch, 2.5 * units.Inch, 3 * units.Inch}

// Suction solves the suction line of a pump in a state again and returns the whole
// sum. The state names strainer, water and level where the rig has these axes; one
// that is left out counts as clean, cold and low.
func (m *Model) Suction(pump string, s State) (*SuctionAnswer, error) {
	in := &m.blocks.suction.in
	breath, err := in.breath()
	if err != nil {
		return nil, err
	}
	for i := range in.pumps {
		p := &in.pumps[i]
		if p.id != pump || !p.line.given() || !p.line.Low.Given() || !in.known {
			continue
		}
		vacuum, err := in.vacuum(p, breath)
		if err != nil {
			return nil, err
		}
		water := waterCold
		if s.v[AxisWater] == waterWarm && p.line.warms(in.water) {
			water = waterWarm
		}
		x := in.suction(new(suctionWork), p, water, vacuum)
		x.Strainer = p.strainer(int(s.v[AxisStrainer]))
		if s.v[AxisLevel] == levelFull && p.line.High.Given() {
			x.Level = p.line.High.Length()
		}
		h, err := x.Head()
		if err != nil {
			return nil, units.At("pumps["+pump+"].suction", err)
		}
		o := tank.CureOptions{Moved: min(tank.TypicalMoved().Usual, p.line.Length), Raise: 1 * units.Foot, Cooler: max(x.Water.Sub(in.water), 0)}
		for _, d := range hoseSteps {
			if d > p.line.Bore*1.01 {
				o.Bore = d
				break
			}
		}
		cures, err := x.Cures(o)
		if err != nil {
			return nil, units.At("pumps["+pump+"].suction", err)
		}
		return &SuctionAnswer{State: s, Head: *h, Cures: cures}, nil
	}
	return nil, &units.FieldError{Path: "pumps[" + pump + "].suction", Want: "a pump whose suction line, level and site are given", Err: fields.ErrUnknown}
}
