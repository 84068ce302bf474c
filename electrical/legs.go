package electrical

import (
	"math"
	"strconv"

	"example.com/washrig/units"
)

// A LegLoad is a load on a 120/240 V source.
type LegLoad struct {
	Name     string
	Power    units.Power
	Apparent units.ApparentPower // zero: not told
	BothLegs bool                // 240 V, half on each leg
	Leg      int                 // 1 or 2 where the outlet settles it; zero: free. Not with BothLegs
}

// MaxLegLoads is the number of free 120 V loads that [BalanceLegs] takes.
const MaxLegLoads = 20

// A LegBalance is how loads lie on the legs of a 120/240 V source.
type LegBalance struct {
	First, Second []string // 120 V loads of each leg
	Leg           [2]Demand
	Current       [2]units.Current
	Neutral       units.Current
	// FromPower is set where a load does not tell its volt-amperes: currents are
	// then those of the watts alone, the least they can be.
	FromPower bool
}

// BalanceLegs shares 120 V loads out over the two legs so that the greater leg
// current is least:
//
//	I = √((ΣP)² + (ΣN)²) / V,   I_neutral = |I₁ − I₂| as phasors
//
// V is the voltage of a leg. A source that makes 120/240 V from two windings
// gives half of its rating on each leg. Of equal shares it is the one that keeps
// the first free load on the first leg, then the second load, and so on.
//
// Exact, for up to [MaxLegLoads] free loads; an error otherwise.
//
// Errors: units.ErrMissing, units.ErrRange and units.ErrConflict, paths
// "legVoltage", "loads" and "loads[burner].power".
//
// Source: Kirchhoff's current law at the neutral.
func BalanceLegs(loads []LegLoad, legVoltage units.Voltage) (LegBalance, error) {
	var p problems
	p.required("legVoltage", float64(legVoltage), minVoltage, maxVoltage, inVolts)
	b := LegBalance{}
	var free []int
	for i, l := range loads {
		path := element("loads", l.Name, i)
		if l.Name == "" {
			p.missing(path+".name", "a name that tells this load from the others")
		}
		for _, m := range loads[:i] {
			if m.Name == l.Name && l.Name != "" {
				p.conflict(path+".name", l.Name, "a name of its own for each load")
				break
			}
		}
		p.power(path+".power", l.Power)
		if l.Apparent == 0 {
			b.FromPower = true
		} else if p.apparent(path+".apparent", l.Apparent) && float64(l.Apparent) < float64(l.Power)*(1-apparentSlack) {
			p.conflict(path+".apparent", l.Apparent, "at least the power, "+l.Power.String())
		}
		switch {
		case l.Leg < 0 || l.Leg > 2:
			p.rangef(path+".leg", l.Leg, "1 or 2")
		case l.BothLegs && l.Leg != 0:
			p.conflict(path+".leg", l.Leg, "no leg of its own, since the load is on both")
		case !l.BothLegs && l.Leg == 0:
			free = append(free, i)
		}
	}
	if len(free) > MaxLegLoads {
		p.rangef("loads", len(free), "at most "+strconv.Itoa(MaxLegLoads)+" free loads")
	}
	if len(loads) > 1000 {
		p.rangef("loads", len(loads), "at most 1000 loads")
	}
	if err := p.err(); err != nil {
		return LegBalance{}, err
	}
	part := func(l LegLoad) load {
		s := load{p: float64(l.Power)}
		if !b.FromPower {
			s.q = nonActive(float64(l.Apparent), float64(l.Power))
		}
		return s
	}
	var fixed [2]load
	for _, l := range loads {
		s := part(l)
		switch {
		case l.BothLegs:
			half := load{s.p / 2, s.q / 2}
			fixed[0], fixed[1] = fixed[0].add(half), fixed[1].add(half)
		case l.Leg > 0:
			fixed[l.Leg-1] = fixed[l.Leg-1].add(s)
		}
	}
	parts := make([]load, len(free))
	for k, i := range free {
		parts[k] = part(loads[i])
	}

	best, choice := math.Inf(1), uint32(0)
	var visit func(k int, legs [2]load, set uint32)
	visit = func(k int, legs [2]load, set uint32) {
		worst := max(legs[0].va(), legs[1].va())
		if worst >= best {
			return // what comes only adds to a leg
		}
		if k == len(parts) {
			best, choice = worst, set
			return
		}
		visit(k+1, [2]load{legs[0].add(parts[k]), legs[1]}, set)
		visit(k+1, [2]load{legs[0], legs[1].add(parts[k])}, set|1<<k)
	}
	visit(0, fixed, 0)

	legs := fixed
	where := make([]int, len(loads)) // leg of each 120 V load
	for i, l := range loads {
		where[i] = l.Leg
	}
	for k, i := range free {
		leg := int(choice >> k & 1)
		where[i] = leg + 1
		legs[leg] = legs[leg].add(parts[k])
	}
	for i, l := range loads {
		switch where[i] {
		case 1:
			b.First = append(b.First, l.Name)
		case 2:
			b.Second = append(b.Second, l.Name)
		}
	}
	v := float64(legVoltage)
	for k, s := range legs {
		b.Leg[k].Power = units.Power(s.p)
		if !b.FromPower {
			b.Leg[k].Apparent = units.ApparentPower(s.va())
		}
		b.Current[k] = units.Current(s.va() / v)
	}
	b.Neutral = units.Current(legs[0].sub(legs[1]).va() / v)
	return b, nil
}
