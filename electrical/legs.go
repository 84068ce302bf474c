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
	var x legSplit
	if err := x.solve(loads, legVoltage); err != nil {
		return LegBalance{}, err
	}
	b := LegBalance{FromPower: x.fromPower}
	where := make([]int, len(loads)) // leg of each 120 V load
	for i := range loads {
		where[i] = loads[i].Leg
	}
	for k, i := range x.free[:x.n] {
		where[i] = int(x.choice>>k&1) + 1
	}
	for i, l := range loads {
		switch where[i] {
		case 1:
			b.First = append(b.First, l.Name)
		case 2:
			b.Second = append(b.Second, l.Name)
		}
	}
	legs, v := x.legs(), float64(legVoltage)
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

// FullerLeg returns the greater of the leg currents of [BalanceLegs]. It does not
// allocate.
//
// Errors: those of BalanceLegs.
func FullerLeg(loads []LegLoad, legVoltage units.Voltage) (units.Current, error) {
	var x legSplit
	if err := x.solve(loads, legVoltage); err != nil {
		return 0, err
	}
	legs, v := x.legs(), float64(legVoltage)
	return units.Current(max(legs[0].va()/v, legs[1].va()/v)), nil
}

// legSplit is how loads are shared out over two legs.
type legSplit struct {
	fromPower bool
	fixed     [2]load
	n         int
	free      [MaxLegLoads]int // places in the list
	parts     [MaxLegLoads]load
	best      float64
	choice    uint32 // a bit for each free load on the second leg
}

// solve checks the loads and finds the best choice.
func (x *legSplit) solve(loads []LegLoad, legVoltage units.Voltage) error {
	if err := x.check(loads, legVoltage); err != nil {
		return err
	}
	k := 0
	for i := range loads {
		l := &loads[i]
		s := load{p: float64(l.Power)}
		if !x.fromPower {
			s.q = nonActive(float64(l.Apparent), float64(l.Power))
		}
		switch {
		case l.BothLegs:
			half := load{s.p / 2, s.q / 2}
			x.fixed[0], x.fixed[1] = x.fixed[0].add(half), x.fixed[1].add(half)
		case l.Leg > 0:
			x.fixed[l.Leg-1] = x.fixed[l.Leg-1].add(s)
		default:
			x.parts[k] = s
			k++
		}
	}
	x.best = math.Inf(1)
	x.visit(0, x.fixed, 0)
	return nil
}

// visit tries the legs of free load k and of those behind it.
func (x *legSplit) visit(k int, legs [2]load, set uint32) {
	worst := max(legs[0].va(), legs[1].va())
	if worst >= x.best {
		return // what comes only adds to a leg
	}
	if k == x.n {
		x.best, x.choice = worst, set
		return
	}
	x.visit(k+1, [2]load{legs[0].add(x.parts[k]), legs[1]}, set)
	x.visit(k+1, [2]load{legs[0], legs[1].add(x.parts[k])}, set|1<<k)
}

// legs returns what lies on each leg.
func (x *legSplit) legs() [2]load {
	legs := x.fixed
	for k := range x.n {
		leg := int(x.choice >> k & 1)
		legs[leg] = legs[leg].add(x.parts[k])
	}
	return legs
}

// check validates the loads and lists the free ones.
func (x *legSplit) check(loads []LegLoad, legVoltage units.Voltage) error {
	var p problems
	p.required("legVoltage", float64(legVoltage), minVoltage, maxVoltage, inVolts)
	free := 0
	for i := range loads {
		l := &loads[i]
		first := 0
		for loads[first].Name != l.Name {
			first++
		}
		x.fromPower = x.fromPower || l.Apparent == 0
		if !l.BothLegs && l.Leg == 0 {
			if free < MaxLegLoads {
				x.free[free] = i
			}
			free++
		}
		// Paths are spelt where something is wrong.
		if l.Name != "" && first == i && l.Power >= minPower && l.Power <= maxPower && (l.Apparent == 0 || l.Apparent >= minPower && l.Apparent <= maxPower && float64(l.Apparent) >= float64(l.Power)*(1-apparentSlack)) &&
			l.Leg >= 0 && l.Leg <= 2 && (l.Leg == 0 || !l.BothLegs) {
			continue
		}
		path := element("loads", l.Name, i)
		if l.Name == "" {
			p.missing(path+".name", "a name that tells this load from the others")
		} else if first < i {
			p.conflict(path+".name", l.Name, "a name of its own for each load")
		}
		p.power(path+".power", l.Power)
		if l.Apparent != 0 && p.apparent(path+".apparent", l.Apparent) && float64(l.Apparent) < float64(l.Power)*(1-apparentSlack) {
			p.conflict(path+".apparent", l.Apparent, "at least the power, "+l.Power.String())
		}
		switch {
		case l.Leg < 0 || l.Leg > 2:
			p.rangef(path+".leg", l.Leg, "1 or 2")
		case l.BothLegs && l.Leg != 0:
			p.conflict(path+".leg", l.Leg, "no leg of its own, since the load is on both")
		}
	}
	if free > MaxLegLoads {
		p.rangef("loads", free, "at most "+strconv.Itoa(MaxLegLoads)+" free loads")
	}
	if len(loads) > 1000 {
		p.rangef("loads", len(loads), "at most 1000 loads")
	}
	x.n = min(free, MaxLegLoads)
	return p.err()
}
