package rig

import (
	"example.com/washrig/internal/water"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// staticsIn is what the weights depend on.
type staticsIn struct {
	axes     *axisSet
	present  bool
	trailer  statics.Trailer
	fixed    []statics.Mass
	liquids  []statics.Varying // water by tank, then fuel by fuel tank
	density  []units.Density
	fills    []fillState
	contents []string
	joined   [][2]int // tanks with an open crossover between them
	vehicle  units.Mass
	tankIDs  []string
}

func (m *Model) staticsInput() staticsIn {
	s := m.spec
	in := staticsIn{axes: m.axes, present: s.Trailer != nil, fills: m.fills}
	if s.Trailer == nil {
		return in
	}
	t := s.Trailer
	in.trailer = statics.Trailer{AxleGroup: t.AxleGroup, Axles: t.Axles}
	for _, c := range components(s) {
		if c.weighs() {
			in.fixed = append(in.fixed, statics.Mass{Name: string(c.path), Mass: c.stock.Mass, X: c.stock.X, Y: c.stock.Y, Z: c.stock.Z})
		}
	}
	rho := units.Density(1000)
	if d, err := water.Density(101325, s.Site.Water.Kelvin()); err == nil {
		rho = units.Density(d)
	}
	index := map[string]int{}
	for i := range s.Tanks {
		k := &s.Tanks[i]
		index[k.ID] = i
		in.tankIDs = append(in.tankIDs, k.ID)
		in.contents = append(in.contents, k.Contents)
		in.liquids = append(in.liquids, statics.Varying{Name: "tanks[" + k.ID + "]", Most: mass(k.Nominal, rho), X: k.X, Y: k.Y, Z: k.Z})
		in.density = append(in.density, rho)
	}
	for i := range s.FuelTanks {
		k := &s.FuelTanks[i]
		in.liquids = append(in.liquids, statics.Varying{Name: "fuel_tanks[" + k.ID + "]", Most: mass(k.Volume, k.Density), X: k.X, Y: k.Y, Z: k.Z})
		in.density = append(in.density, k.Density)
	}
	for _, c := range s.Crossovers {
		if c.Valve == "open" {
			in.joined = append(in.joined, [2]int{index[c.From], index[c.To]})
		}
	}
	if s.TowVehicle != nil {
		in.vehicle = s.TowVehicle.CurbAndCrew
	}
	return in
}

func mass(v units.Volume, d units.Density) units.Mass { return units.Mass(float64(v) * float64(d)) }

// solveStatics returns the weights of every fill state.
func solveStatics(in staticsIn) ([]*numbers, error) {
	var out []*numbers
	if in.present && len(in.fixed) > 0 && in.trailer.AxleGroup.Given() {
		env, err := statics.NewEnvelope(in.trailer, in.fixed, in.liquids)
		if err != nil {
			return nil, err
		}
		states := make([]State, len(in.fills))
		for i := range in.fills {
			states[i] = State{set: in.axes}.with(AxisFill, i+1)
		}
		n := newNumbers(states)
		for _, m := range []*Metric{mTotal, mTongue, mTongueShare, mAxle, mCombination} {
			n.row(m, "")
		}
		for _, id := range in.tankIDs {
			n.row(mMixed, id)
		}
		total, tongue, share, axle, comb := n.of(mTotal, ""), n.of(mTongue, ""), n.of(mTongueShare, ""), n.of(mAxle, ""), n.of(mCombination, "")
		load := make([]units.Mass, len(in.liquids))
		for i := range in.fills {
			f := &in.fills[i]
			for k := range f.water {
				load[k] = units.Mass(f.water[k] * float64(in.density[k]))
			}
			for k := range f.fuel {
				j := len(f.water) + k
				load[j] = units.Mass(f.fuel[k] * float64(in.density[j]))
			}
			l, err := env.At(load)
			if err != nil {
				return nil, err
			}
			total[i], tongue[i], share[i], axle[i] = float64(l.Total), float64(l.Tongue), float64(l.Share), float64(l.Axle)
			if in.vehicle != 0 {
				comb[i] = float64(l.Total + in.vehicle)
			}
			for k, id := range in.tankIDs {
				row := n.of(mMixed, id)
				row[i] = 0
				for _, j := range in.joined {
					a, b := j[0], j[1]
					if (a == k || b == k) && in.contents[a] != in.contents[b] && f.water[a]+f.water[b] > 0 {
						row[i] = f.water[k]
					}
				}
			}
		}
		out = append(out, n)
	}
	return out, nil
}
