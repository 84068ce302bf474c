package rig

import (
	"sort"

	"example.com/washrig/units"
)

// A ParkedCard is how the trailer is set down: the order of dumping, what then
// stands on the jack, and how little on the tail lifts it.
type ParkedCard struct {
	Steps  []CardStep   `json:"steps"`
	Dump   []CardDump   `json:"dump"`   // tanks, those first that lift the tongue
	States []CardParked `json:"states"` // the listed fill states, then the tanks as they are dumped in that order

	JackRating units.Mass `json:"jack_rating"` // zero: not given
}

// A CardDump is one tank in the order of dumping.
type CardDump struct {
	Tank   string         `json:"tank"`
	Holds  string         `json:"holds"`
	Full   units.Volume   `json:"full"`
	Behind units.Length   `json:"behind"`        // its centre behind the axles; negative: ahead
	Tongue units.Mass     `json:"tongue"`        // what emptying it puts on the tongue; negative: takes off
	Time   units.Quantity `json:"time,omitzero"` // to dump it, full to the last inch
}

// A CardParked is the trailer unhitched in one fill.
type CardParked struct {
	Title  string         `json:"title"`
	Tongue units.Quantity `json:"tongue"` // hitched
	Jack   units.Quantity `json:"jack"`   // unhitched; absent: the place of the jack is not known
	Spare  units.Quantity `json:"spare"`  // weight on the tail that lifts the jack; negative: it drops by itself
}

// ParkedCard returns the card of setting the trailer down; empty where there is no
// trailer.
func (r *Report) ParkedCard() ParkedCard {
	m, s := r.model, r.model.spec
	var c ParkedCard
	if s.Trailer == nil {
		return c
	}
	c.JackRating = s.Trailer.JackRating
	in := m.blocks.statics.in
	axle, base := s.Trailer.AxleGroup, float64(s.Trailer.AxleGroup.Sub(s.Trailer.Coupler))
	for i := range s.Tanks {
		t := &s.Tanks[i]
		if !t.X.Given() || base <= 0 {
			continue
		}
		d := CardDump{Tank: t.ID, Holds: t.Contents, Full: t.Nominal, Behind: t.X.Sub(axle)}
		d.Tongue = units.Mass(float64(t.Nominal) * float64(in.density[i]) * float64(d.Behind) / base)
		if x, ok := r.At(mDrainTime.at(t.ID), State{set: m.axes}); ok {
			d.Time = x.Value
		}
		c.Dump = append(c.Dump, d)
	}
	sort.SliceStable(c.Dump, func(a, b int) bool { return c.Dump[a].Tongue > c.Dump[b].Tongue })
	add := func(title string, at State) {
		p := CardParked{Title: title}
		for _, x := range []struct {
			m  *Metric
			to *units.Quantity
		}{{mTongue, &p.Tongue}, {mJack, &p.Jack}, {mTailSpare, &p.Spare}} {
			if have, ok := r.At(x.m.Path, at); ok {
				*x.to = have.Value
			}
		}
		if p.Tongue.Given() {
			c.States = append(c.States, p)
		}
	}
	for _, f := range m.Fills() {
		if f.Reach == Reachable {
			add(f.Title, f.State)
		}
	}
	for k := 0; k <= len(c.Dump) && len(c.Dump) == len(s.Tanks) && len(c.Dump) > 0; k++ {
		var full []string
		for _, d := range c.Dump[k:] {
			full = append(full, d.Tank)
		}
		title := "all tanks full, fuel as it comes home"
		if k > 0 {
			title = "then " + c.Dump[k-1].Tank + " dumped"
		}
		if at, ok := m.corner(full); ok {
			add(title, at)
		}
	}
	c.steps(s)
	return c
}

// corner returns the fill state with these water tanks full, all others empty and
// fuel as it comes home.
func (m *Model) corner(full []string) (State, bool) {
	name := "corner:" + subsetName(full, 1<<len(full)-1, "dry")
	for i := range m.fills {
		if m.fills[i].name == name {
			return State{set: m.axes}.with(AxisFill, i+1), true
		}
	}
	return State{}, false
}

func (c *ParkedCard) steps(s *Spec) {
	step := func(do Action, parts ...Path) *CardStep {
		c.Steps = append(c.Steps, CardStep{Do: do, Parts: parts})
		return &c.Steps[len(c.Steps)-1]
	}
	step(DoLevelGround)
	step(DoChock)
	for _, d := range c.Dump {
		if d.Tongue > 0 {
			x := step(DoDump, Path("tanks["+d.Tank+"]"))
			x.Value = d.Time
		}
	}
	step(DoRearStands)
	var jack, spare units.Quantity
	for _, p := range c.States {
		if p.Jack.Given() && (!jack.Given() || p.Jack.SI() > jack.SI()) {
			jack = p.Jack
		}
		if p.Spare.Given() && (!spare.Given() || p.Spare.SI() < spare.SI()) {
			spare = p.Spare
		}
	}
	step(DoJack).Value = jack
	step(DoCheckTail).Value = spare
	step(DoUnhitch)
	var dumps []Path
	for i := range s.Tanks {
		if t := &s.Tanks[i]; t.Dump.Bore != 0 || t.DumpValve != "" {
			dumps = append(dumps, Path("tanks["+t.ID+"]"))
		}
	}
	if len(dumps) > 0 {
		step(DoLockDump, dumps...)
	}
}
