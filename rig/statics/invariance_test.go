package statics_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// A laden trailer is everything that the answers of this package depend on.
type laden struct {
	tr         statics.Trailer
	fixed      []statics.Mass
	vary       []statics.Varying
	tanks      []statics.Filling
	jack, tail units.Position
	springs    statics.Suspension
	limits     statics.Limits
	mover      statics.Mover
}

func randomLaden(g *property.G) (laden, error) {
	tr, fixed, vary, tanks := randomRolling(g)
	tr.CouplerHeight = units.Length(g.Float(0.3, 0.7))
	named(fixed, vary)
	x, err := statics.Corners(tr, fixed, vary)
	if err != nil {
		return laden{}, err
	}
	if x.Tongue.Most.Value <= 0 {
		return laden{}, property.ErrDiscard // a rating of a load that lifts says nothing
	}
	l := laden{tr: tr, fixed: fixed, vary: vary, tanks: tanks, springs: randomSuspension(g, tr.Axles), limits: randomLimits(g, tr, x)}
	l.jack, l.tail = tr.Coupler.Add(units.Length(g.Float(0, 1))), tr.AxleGroup.Add(units.Length(g.Float(0.5, 3)))
	l.mover = statics.Mover{Name: "m", Masses: []string{fixed[0].Name}, Forward: units.Length(g.Float(0, 1.5)), Back: units.Length(g.Float(0, 1.5)), Cost: 1}
	return l, nil
}

// moved is the same trailer seen from another origin.
func (l laden) moved(by units.Length) laden {
	l.fixed, l.vary, l.tanks = slices.Clone(l.fixed), slices.Clone(l.vary), slices.Clone(l.tanks)
	l.tr.Coupler, l.tr.AxleGroup = l.tr.Coupler.Add(by), l.tr.AxleGroup.Add(by)
	l.jack, l.tail = l.jack.Add(by), l.tail.Add(by)
	for i := range l.fixed {
		l.fixed[i].X = l.fixed[i].X.Add(by)
	}
	for i := range l.vary {
		l.vary[i].X = l.vary[i].X.Add(by)
	}
	for i := range l.tanks {
		l.tanks[i].Tank.X = l.tanks[i].Tank.X.Add(by)
	}
	return l
}

// relisted is the same trailer with its masses listed in another order.
func (l laden) relisted(g *property.G) laden {
	fixed, vary := make([]statics.Mass, len(l.fixed)), make([]statics.Varying, len(l.vary))
	for i, k := range g.Perm(len(fixed)) {
		fixed[i] = l.fixed[k]
	}
	for i, k := range g.Perm(len(vary)) {
		vary[i] = l.vary[k]
	}
	l.fixed, l.vary = fixed, vary
	return l
}

// answers are the numbers of every question about it that has an answer, by
// name.
func (l *laden) answers() map[string]float64 {
	out := map[string]float64{}
	masses := l.fixed
	for _, v := range l.vary {
		masses = append(slices.Clone(masses), statics.Mass{Name: v.Name, Mass: v.Most, X: v.X, Y: v.Y, Z: v.Z})
	}
	if s, err := statics.Suspend(l.tr, masses, l.springs); err == nil {
		out["suspended tongue"], out["suspended group"], out["nose"] = float64(s.Tongue), float64(s.Group), float64(s.Nose)
		for i, a := range s.Axles {
			out[fmt.Sprint("suspended axle ", i)], out[fmt.Sprint("suspended left ", i)] = float64(a.Load), float64(a.Left)
		}
	}
	if h, err := statics.LevelBall(l.tr, masses, l.springs); err == nil {
		out["level ball"] = float64(h)
	}
	if p, err := statics.Park(l.tr, l.fixed, l.vary, l.jack, l.tail); err == nil {
		out["least jack"], out["most jack"], out["spare"], out["stand"] = float64(p.Jack.Least.Value), float64(p.Jack.Most.Value), float64(p.Spare.Value), float64(p.Stand.Value)
	}
	if p, err := statics.Pitch(l.tr, l.fixed, l.vary, l.tanks, statics.Attitude{Grade: 0.05, Braking: 2}); err == nil {
		out["pitched least"], out["pitched most"] = float64(p.LeastTongue.Tongue), float64(p.MostTongue.Tongue)
	}
	if s, err := statics.Rollover(l.tr, l.fixed, l.vary, l.tanks); err == nil {
		out["tips at"], out["height"], out["factor"] = float64(s.Threshold), float64(s.Height), float64(s.Factor)
	}
	if x, err := statics.Corners(l.tr, l.fixed, l.vary); err == nil {
		out["least share"], out["most group"], out["most tyre"] = float64(x.Share.Least.Value), float64(x.Group.Most.Value), float64(x.Tyre.Most.Value)
	}
	if p, err := statics.Place(l.tr, l.fixed, l.vary, nil, []statics.Mover{l.mover}, l.limits); err == nil {
		if p.Possible {
			out["placed at cost"] = p.Cost
		} else {
			out["placed short by"] = float64(p.Short)
		}
	}
	if r, err := statics.PassingShifts(l.tr, l.fixed, l.vary, nil, l.mover, l.limits); err == nil && r.Possible {
		out["passes forward"], out["passes back"] = float64(r.Forward), float64(r.Back)
	}
	part := statics.Mass{Name: "part", X: l.tail, Y: units.PositionAt(0), Z: units.PositionAt(1)}
	if turns, err := statics.BreakEven(l.tr, l.fixed, l.vary, nil, part, l.limits); err == nil {
		for i, t := range turns {
			out[fmt.Sprint("turn ", i)] = float64(t.Mass)
		}
	}
	growth := []statics.Growth{{Name: "water", Share: 1, X: l.tr.AxleGroup, Y: units.PositionAt(0), Density: 1000}}
	if v, err := statics.MostVolume(l.tr, l.fixed, l.vary, growth, nil, l.limits); err == nil && v.Possible {
		out["least volume"], out["most volume"] = float64(v.Least), float64(v.Most)
	}
	return out
}

// Every answer is the same from another origin. Tolerance: the moments lose what
// adding the shift to the places costs, a few 1e-15 of the lengths; quotients of
// differences and the ends of searches magnify that, and 1e-7 holds them all.
func TestEveryAnswer_originElsewhere(t *testing.T) {
	seen := map[string]bool{}
	property.Check(t, func(g *property.G) error {
		l, err := randomLaden(g)
		if err != nil {
			return err
		}
		far := l.moved(units.Length(g.Float(-8, 8)))
		a, b := l.answers(), far.answers()
		if len(a) != len(b) {
			return fmt.Errorf("%d answers, and %d from elsewhere", len(a), len(b))
		}
		for name, v := range a {
			w, ok := b[name]
			if !ok || math.Abs(v-w) > 1e-7*max(1, math.Abs(v)) {
				return fmt.Errorf("%s is %.12g, and from elsewhere %.12g", name, v, w)
			}
			seen[name] = true
		}
		return nil
	})
	if len(seen) < 20 {
		t.Errorf("only %d answers were seen: %v", len(seen), seen)
	}
}

// Every answer is the same, to the bit, however the masses are listed.
func TestEveryAnswer_listingOrder(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		l, err := randomLaden(g)
		if err != nil {
			return err
		}
		other := l.relisted(g)
		a, b := l.answers(), other.answers()
		if len(a) != len(b) {
			return fmt.Errorf("%d answers, and %d listed otherwise", len(a), len(b))
		}
		for name, v := range a {
			if w, ok := b[name]; !ok || v != w {
				return fmt.Errorf("%s is %v, and listed otherwise %v", name, v, w)
			}
		}
		return nil
	})
}
