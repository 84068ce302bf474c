package tank

import (
	"math"
	"strconv"

	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// FirstSpill returns which tank overflows first within a time, and when; ok is
// false where none does.
func (s *System) FirstSpill(start []Content, within units.Duration) (first Event, ok bool, err error) {
	o, err := s.Run(start, within, RunOptions{StopAt: []EventKind{SpillBegins}})
	if err != nil || o.Stop == nil {
		return Event{}, false, err
	}
	return *o.Stop, true, nil
}

// A Stranding is what a pump leaves behind when its port falls dry: water in other
// tanks that has not come through the crossovers in time.
type Stranding struct {
	Time     units.Duration // until the port falls dry
	Left     []Content
	Stranded []units.Volume // by tank: what would still come to the port if the pump waited
	Total    units.Volume   // of Stranded
}

// Stranded runs the system until the port of a draw falls dry and returns what is
// left. What lies below the port, or behind the sill of a crossover, is heel and
// not stranded.
//
// Errors: those of [System.Run]; an index that is no draw; a draw that gets more
// than it takes, so that its port never falls dry, is a [*units.FieldError].
func (s *System) Stranded(start []Content, draw int) (*Stranding, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if err := s.checkContents(start); err != nil {
		return nil, err
	}
	if draw < 0 || draw >= len(s.Draws) {
		return nil, &units.FieldError{Path: "draw", Value: strconv.Itoa(draw), Want: "the index of a draw", Err: units.ErrRange}
	}
	in, total := -s.Draws[draw].Flow, units.Volume(0)
	for i := range s.Fills {
		in += s.Fills[i].Flow
	}
	for i := range start {
		total += start[i].Volume
	}
	// Each moment the tanks lose at least what the draw takes over all fills.
	if !(in < 0) || float64(total) > float64(-in)*float64(365*units.Day) {
		return nil, &units.FieldError{Path: problem.Element("draws", s.Draws[draw].Name, draw) + ".flow", Value: s.Draws[draw].Flow.String(),
			Want: "more than the fills bring, to empty the tanks within a year", Err: units.ErrConflict}
	}
	one := *s
	one.Draws = s.Draws[draw : draw+1]
	for i := range s.Draws {
		if i != draw { // the others go on, and may fall dry without ending the run
			one.Draws = append(one.Draws[:len(one.Draws):len(one.Draws)], s.Draws[i])
		}
	}
	out := &Stranding{}
	have := start
	limit := units.Duration(float64(total)/float64(-in))*1.001 + 1
	for tries := 0; ; tries++ {
		o, err := one.Run(have, limit, RunOptions{StopAt: []EventKind{PortDries}})
		if err != nil {
			return nil, err
		}
		out.Time += o.Time
		have = o.End
		if o.Stop == nil || o.Stop.Tank == one.Draws[0].Tank || tries > 2*maxTanks {
			break
		}
		// another tank's draw has gone dry: it takes only what comes to it
		kept := one.Draws[:1:1]
		for _, d := range one.Draws[1:] {
			if d.Tank != o.Stop.Tank {
				kept = append(kept, d)
			}
		}
		one.Draws = kept
	}
	out.Left = have
	f := one.compile()
	d := one.Draws[0]
	v := &f.vessels[d.Tank]
	ux, uy, uz := s.up()
	port := v.floor + float64(d.Port.Height)*uz + float64(d.Port.Aft)*ux + float64(d.Port.Left)*uy
	// the height to which each tank runs out towards the draw: the lowest, over
	// all ways there, of the highest sill on the way
	to := make([]float64, f.n)
	for i := range to {
		to[i] = math.Inf(1)
	}
	to[d.Tank] = port
	for range f.n {
		for k := range f.paths {
			p := &f.paths[k]
			if p.kind != linkPath || p.shut {
				continue
			}
			to[p.from] = math.Min(to[p.from], math.Max(to[p.to], p.sill))
			if !p.oneWay {
				to[p.to] = math.Min(to[p.to], math.Max(to[p.from], p.sill))
			}
		}
	}
	out.Stranded = make([]units.Volume, f.n)
	for i := range f.vessels {
		v := &f.vessels[i]
		if math.IsInf(to[i], 1) {
			continue
		}
		heel := v.volume((to[i] - v.floor) / v.uz)
		out.Stranded[i] = units.Volume(math.Max(0, float64(have[i].Volume)-heel))
		out.Total += out.Stranded[i]
	}
	return out, nil
}

// LargestFill returns the largest flow of a fill at which no tank overflows before
// the tanks together hold a share of what they hold with every level at its
// overflow. Filling one of two joined tanks always spills a little early, since the
// filled tank stands higher; the share says how early is too early.
//
// The answer is found between a drop a second and most; full is true where even
// most does not spill too early.
//
// Errors: those of [System.Run]; an index that is no fill; a share outside 0 to 1, or
// one that no flow reaches.
func (s *System) LargestFill(start []Content, fill int, share units.Ratio, most units.VolumeFlow) (flow units.VolumeFlow, full bool, err error) {
	if err := s.Validate(); err != nil {
		return 0, false, err
	}
	if err := s.checkContents(start); err != nil {
		return 0, false, err
	}
	var p problem.List
	if fill < 0 || fill >= len(s.Fills) {
		p.Add("fill", strconv.Itoa(fill), "the index of a fill", units.ErrRange)
	}
	problem.Within(&p, "share", share, 1e-6, 1)
	problem.Within(&p, "most", most, 1e-7, maxFlow)
	if err := p.Join(); err != nil {
		return 0, false, err
	}
	capacity := 0.0
	for _, m := range s.compile().modes {
		for _, t := range m.at {
			if t.brim {
				capacity += t.volume
			}
		}
	}
	one := *s
	one.Fills = append([]Fill(nil), s.Fills...)
	var fault error
	over := func(q float64) float64 {
		one.Fills[fill].Flow = units.VolumeFlow(q)
		limit := min(units.Duration(2*capacity/q)+1, 365*units.Day)
		o, err := one.Run(start, limit, RunOptions{StopAt: []EventKind{SpillBegins}})
		if err != nil {
			fault = err
			return math.NaN()
		}
		if o.Stop == nil {
			return 1
		}
		held := 0.0
		for _, c := range o.End {
			held += float64(c.Volume)
		}
		return held/capacity - float64(share)
	}
	if over(float64(most)) >= 0 {
		return most, true, nil
	}
	lo := 1e-7
	if fault == nil && over(lo) < 0 {
		return 0, false, &units.FieldError{Path: "share", Value: share.String(), Want: "a share that the tanks reach before one of them overflows", Err: units.ErrConflict}
	}
	x, _, err := root.Bracketed(func(l float64) float64 { return over(math.Exp(l)) }, math.Log(lo), math.Log(float64(most)), 1e-9)
	if fault != nil {
		return 0, false, fault
	}
	if err != nil {
		return 0, false, err
	}
	return units.VolumeFlow(math.Exp(x)), false, nil
}
