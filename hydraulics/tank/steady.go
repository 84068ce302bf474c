package tank

import (
	"math"

	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// A Spread is how joined tanks stand to each other while all of them move at one
// speed: what a run tends to long after its start.
type Spread struct {
	Heights    []units.Length     // of each surface over the one at which its group would rest
	Speeds     []units.Velocity   // at which each surface moves, rising positive
	Links      []units.VolumeFlow // from From to To
	Difference units.Length       // largest between two tanks of one group

	// Holds reports whether every surface would then lie above the links of its tank
	// and below its overflow, so that the answer means something. Where it does not,
	// [System.Run] tells what happens.
	Holds bool
}

// Spread returns the differences of level that the draws and fills of the system
// keep up, around the contents given. Outlets count with what they pass at rest.
//
//	Σ q over the links of a tank + its fills − draws − outlets = A · speed of its group
//
// It is [SteadyCrossing] for any number of tanks, and with links in rings. Tanks that
// open links join make one group; a tank alone is a group of its own. A check valve
// counts as open both ways.
//
// Errors: those of [System.Run]; a [*units.SolverError] where no balance is found.
func (s *System) Spread(contents []Content) (*Spread, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if err := s.checkContents(contents); err != nil {
		return nil, err
	}
	f := s.compile()
	n := f.n
	group := s.groups()
	// at rest
	dev := make([]float64, n)
	rest := f.rest(group, contents, dev)
	y := make([]float64, n*f.width)
	area := make([]float64, n)
	for i := range f.vessels {
		v := &f.vessels[i]
		h := (rest[i] - v.floor) / v.uz
		y[i*f.width] = v.volume(h)
		area[i] = math.Max(v.surface(math.Min(math.Max(h, 0), v.h)), 1e-6*v.full/v.h) / v.uz
	}
	ext := make([]float64, n)
	f.flows(y)
	scale := 0.0
	for k := range f.paths {
		p := &f.paths[k]
		q := f.flow[k]
		switch p.kind {
		case drawPath, fillPath:
			q = p.rate
		case linkPath, spillPath:
			continue
		}
		if p.from >= 0 {
			ext[p.from] -= q
		}
		if p.to >= 0 {
			ext[p.to] += q
		}
		scale += q
	}
	sumA, sumQ := make([]float64, n), make([]float64, n)
	for i, g := range group {
		sumA[g] += area[i]
		sumQ[g] += ext[i]
	}
	out := &Spread{Heights: make([]units.Length, n), Speeds: make([]units.Velocity, n), Holds: true}
	for i, g := range group {
		speed := sumQ[g] / sumA[g]
		out.Speeds[i] = units.Velocity(speed)
		ext[i] -= area[i] * speed
	}
	if err := f.balance(ext, area, group, scale, dev); err != nil {
		return nil, err
	}
	rest = f.rest(group, contents, dev)
	for k := range f.paths {
		p := &f.paths[k]
		if p.kind != linkPath {
			continue
		}
		q := 0.0
		if !p.shut {
			q = p.both(dev[p.from] - dev[p.to])
			out.Holds = out.Holds && rest[p.from]+dev[p.from] >= p.sill && rest[p.to]+dev[p.to] >= p.sill
		}
		out.Links = append(out.Links, units.VolumeFlow(q))
	}
	for i := range dev {
		out.Heights[i] = units.Length(dev[i])
		v := &f.vessels[i]
		m := &f.modes[i]
		brim := m.at[len(m.at)-1].volume // the overflow lies above everything else
		for _, t := range m.at {
			if t.brim {
				brim = t.volume
			}
		}
		h := (rest[i] + dev[i] - v.floor) / v.uz
		out.Holds = out.Holds && h >= 0 && h <= v.level(brim)*(1+1e-12)
		for j := range i {
			if group[j] == group[i] {
				out.Difference = max(out.Difference, units.Length(math.Abs(dev[i]-dev[j])))
			}
		}
	}
	return out, nil
}

// both returns the flow of a link at a difference of heights of either sign.
func (p *path) both(d float64) float64 {
	q, _ := p.passage.flow(math.Abs(d) * p.passage.weight)
	return math.Copysign(q, d)
}

// groups numbers the tanks by the first of those that open links join them with.
func (s *System) groups() []int {
	g := make([]int, len(s.Tanks))
	for i := range g {
		g[i] = i
	}
	for i := range s.Links {
		l := &s.Links[i]
		if l.Shut {
			continue
		}
		a, b := g[l.From], g[l.To]
		for k := range g {
			if g[k] == a || g[k] == b {
				g[k] = min(a, b)
			}
		}
	}
	return g
}

// rest returns for each tank the height at which its group holds what it holds,
// with each surface at that height and its own deviation.
func (f *flowing) rest(group []int, contents []Content, dev []float64) []float64 {
	out := make([]float64, f.n)
	for g := range f.n {
		have, lo, hi := 0.0, math.Inf(1), math.Inf(-1)
		for i := range f.n {
			if group[i] == g {
				v := &f.vessels[i]
				have += float64(contents[i].Volume)
				lo = math.Min(lo, v.floor-dev[i])
				hi = math.Max(hi, v.floor+v.h*v.uz-dev[i])
			}
		}
		if math.IsInf(lo, 1) {
			continue
		}
		e, _, err := root.Bracketed(func(e float64) float64 {
			sum := -have
			for i := range f.n {
				if group[i] == g {
					v := &f.vessels[i]
					sum += v.volume((e + dev[i] - v.floor) / v.uz)
				}
			}
			return sum
		}, lo, hi, 0)
		if err != nil { // full to the last drop, or beyond by rounding
			e = hi
		}
		for i := range f.n {
			if group[i] == g {
				out[i] = e
			}
		}
	}
	return out
}

// balance finds the heights dev at which the links bring every tank what it lacks:
// the minimum of a convex function, by Newton's direction and an exact search along
// it. The heights of a group have the mean 0, weighted with the areas.
func (f *flowing) balance(ext, area []float64, group []int, scale float64, dev []float64) error {
	n := f.n
	lack := make([]float64, n)
	residual := func(at []float64) float64 {
		copy(lack, ext)
		for k := range f.paths {
			p := &f.paths[k]
			if p.kind != linkPath || p.shut {
				continue
			}
			q := p.both(at[p.from] - at[p.to])
			lack[p.from] -= q
			lack[p.to] += q
		}
		worst := 0.0
		for _, x := range lack {
			worst = math.Max(worst, math.Abs(x))
		}
		return worst
	}
	jac, pivot := make([]float64, n*n), make([]int, n)
	dir, trial := make([]float64, n), make([]float64, n)
	// Rounding of the heights leaves a residual that no step improves; what counts
	// is that it is small beside the flows.
	const most, enough = 200, 1e-10
	before := math.Inf(1)
	for it := range most {
		worst := residual(dev)
		if worst <= 1e-14*scale || (worst >= before/2 && worst <= enough*scale) {
			break
		}
		before = worst
		if it == most-1 {
			return &units.SolverError{Solver: "steady levels of joined tanks", State: "heads of the links", Iterations: it, Residual: worst}
		}
		clear(jac)
		for k := range f.paths {
			p := &f.paths[k]
			if p.kind != linkPath || p.shut {
				continue
			}
			_, g := p.passage.flow(math.Abs(dev[p.from]-dev[p.to]) * p.passage.weight)
			g *= p.passage.weight
			jac[p.from*n+p.from] += g
			jac[p.to*n+p.to] += g
			jac[p.from*n+p.to] -= g
			jac[p.to*n+p.from] -= g
		}
		for i, g := range group { // the first of a group stays where it is
			if i == g {
				clear(jac[i*n : (i+1)*n])
				jac[i*n+i] = 1
				lack[i] = 0
			}
		}
		if !decompose(jac, pivot, n) {
			return &units.SolverError{Solver: "steady levels of joined tanks", State: "singular", Iterations: it, Residual: worst}
		}
		copy(dir, lack)
		solveLU(jac, pivot, n, dir)
		along := func(x float64) float64 {
			for i := range trial {
				trial[i] = dev[i] + x*dir[i]
			}
			residual(trial)
			sum := 0.0
			for i := range lack {
				sum += lack[i] * dir[i]
			}
			return sum
		}
		x, first := 1.0, along(0)
		if full := along(1); math.Abs(full) > first/2 {
			lo, hi := 0.0, 1.0
			for range 40 {
				if full <= 0 {
					break
				}
				lo, hi = hi, 4*hi
				full = along(hi)
			}
			if z, _, err := root.Bracketed(along, lo, hi, 1e-6*hi); err == nil && z > 0 {
				x = z
			}
		}
		for i := range dev {
			dev[i] += x * dir[i]
		}
	}
	for g := range n {
		sum, weight := 0.0, 0.0
		for i := range n {
			if group[i] == g {
				sum += dev[i] * area[i]
				weight += area[i]
			}
		}
		for i := range n {
			if group[i] == g {
				dev[i] -= sum / weight
			}
		}
	}
	return nil
}
