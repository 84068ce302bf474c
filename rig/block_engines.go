package rig

import (
	"math"
	"sort"

	"example.com/washrig/electrical"
	"example.com/washrig/fuel"
	"example.com/washrig/units"
)

// enginesIn is what the engines' budgets depend on.
type enginesIn struct {
	work
	axes     *axisSet
	lines    *block[linesIn]
	electric *block[electricIn]
	hours    []hour
	site     units.Elevation
	plugs    int
	engines  []engineIn
}

type engineIn struct {
	id     string
	engine fuel.Engine
	pumps  []string
	belts  []beltIn
}

type beltIn struct {
	id        string
	eff, belt units.Ratio
}

func (m *Model) enginesInput(lines *block[linesIn], electric *block[electricIn]) enginesIn {
	s := m.spec
	in := enginesIn{axes: m.axes, lines: lines, electric: electric, hours: m.hours(), site: s.Site.Elevation, plugs: len(m.plugs)}
	for i := range s.Engines {
		e := &s.Engines[i]
		ei := engineIn{id: e.ID, engine: siteEngine(s, e)}
		for k := range s.Pumps {
			if s.Pumps[k].Engine == e.ID {
				ei.pumps = append(ei.pumps, s.Pumps[k].ID)
			}
		}
		for k := range s.Sources {
			if g := &s.Sources[k]; g.Engine == e.ID {
				ei.belts = append(ei.belts, beltIn{g.ID, g.Efficiency, g.BeltEfficiency})
			}
		}
		sort.Strings(ei.pumps)
		sort.Slice(ei.belts, func(a, b int) bool { return ei.belts[a].id < ei.belts[b].id })
		in.engines = append(in.engines, ei)
	}
	return in
}

// enginesRoom is what solving the block needs besides.
type enginesRoom struct {
	base  []State // of lines
	hours []hour
	keys  []engineKey
	pumps []float64 // of each engine by line state, one engine after another
}

// engineKey is a state of an engine: that of the lines, −1 for none, the plugs or the
// mode, and the hour.
type engineKey struct{ line, plug, hour int }

// solveEngines adds what pumps and belt generators take from each engine.
//
// The demand is a sum of one term that depends on guns and heat and one that
// depends on plugs. Every set of guns is met with the listed plugs; other plug
// assignments are met with the guns and heat of the greatest pump power only,
// since the greatest sum of independent terms is the sum of the greatest.
func solveEngines(in *enginesIn) ([]*numbers, error) {
	if len(in.engines) == 0 {
		return nil, nil
	}
	lines, err := in.lines.within(in.w)
	if err != nil {
		return nil, err
	}
	electric, err := in.electric.within(in.w)
	if err != nil {
		return nil, err
	}
	room := scratch[enginesRoom](in.w)
	hours := append(room.hours[:0], in.hours...)
	if len(hours) == 0 {
		hours = append(hours, hour{})
	}
	room.hours = hours
	var line *numbers
	base := append(room.base[:0], State{set: in.axes})
	if len(lines) > 0 {
		line = lines[0]
		base = append(base[:0], line.states...)
	}
	room.base = base
	room.pumps = room.pumps[:0]
	for i := range in.engines {
		first := len(room.pumps)
		for range base {
			room.pumps = append(room.pumps, 0)
		}
		for _, id := range in.engines[i].pumps {
			for k, x := range line.of(mPumpShaft, id) {
				if !math.IsNaN(x) {
					room.pumps[first+k] += x
				}
			}
		}
	}
	// the line state of the greatest pump power over all engines' pumps
	worst, most := 0, -1.0
	for k := range base {
		if base[k].v[AxisHeat] == heatStuck {
			continue
		}
		sum := 0.0
		for i := range in.engines {
			sum += room.pumps[i*len(base)+k]
		}
		if sum > most*(1+1e-12) {
			worst, most = k, sum
		}
	}
	plugs := max(in.plugs, 1)
	states := in.room((len(base) + plugs) * len(hours))
	room.keys = room.keys[:0]
	for pl := range plugs {
		for k := range base {
			if base[k].v[AxisHeat] == heatStuck || (pl > 0 && k != worst) {
				continue
			}
			for hi, h := range hours {
				s := base[k]
				if in.plugs > 0 {
					s = s.with(AxisPlugs, pl+1)
				}
				states = append(states, s.with(AxisSite, h.state))
				room.keys = append(room.keys, engineKey{k, pl, hi})
			}
		}
	}
	var asked [2]*numbers
	if len(electric) > 0 {
		asked[0] = electric[0]
	}
	if len(electric) > 1 {
		asked[1] = electric[1]
	}
	n, err := in.demand(room, states, asked[0])
	if err != nil {
		return nil, err
	}
	var byMode, has *numbers
	if modes := in.electric.in.modes; len(modes) > 0 {
		// A mode that moves a plug meets its own guns.
		states := in.room(len(modes) * len(hours))
		room.keys = room.keys[:0]
		for i, m := range modes {
			at := -1
			for k := range base {
				if int(base[k].v[AxisGuns]) == m.guns && base[k].v[AxisHeat] != heatStuck && (at < 0 || base[k].v[AxisHeat] == heatSteady) {
					at = k
				}
			}
			for hi, h := range hours {
				s := State{set: in.axes}
				if at >= 0 {
					s = base[at]
				}
				states = append(states, s.with(AxisSite, h.state).with(AxisMode, m.mode))
				room.keys = append(room.keys, engineKey{at, i, hi})
			}
		}
		if byMode, err = in.demand(room, states, asked[1]); err != nil {
			return nil, err
		}
	}
	if in.site.Given() && len(in.hours) > 0 {
		states := in.room(len(in.hours))
		for _, h := range in.hours {
			states = append(states, State{set: in.axes}.with(AxisSite, h.state))
		}
		has = in.newNumbers(states)
		for i := range in.engines {
			row := has.row(mEngineHas, in.engines[i].id)
			for k, h := range in.hours {
				p, err := in.engines[i].engine.Available(fuel.Site{Elevation: in.site, Air: h.air})
				if err != nil {
					return nil, err
				}
				row[k] = float64(p.Power)
			}
		}
	}
	switch {
	case byMode != nil && has != nil:
		return in.out(n, byMode, has), nil
	case byMode != nil:
		return in.out(n, byMode), nil
	case has != nil:
		return in.out(n, has), nil
	}
	return in.out(n), nil
}

// demand returns what is asked of the engines in each state of room.keys; electric is
// what loads ask, by plugs or by mode, nil for no loads.
func (in *enginesIn) demand(room *enginesRoom, states []State, electric *numbers) (*numbers, error) {
	n := in.newNumbers(states)
	for i := range in.engines {
		e := &in.engines[i]
		if len(e.pumps) == 0 && len(e.belts) == 0 {
			continue
		}
		row := n.row(mEngineDemand, e.id)
		for s := range room.keys {
			row[s] = 0
			if k := room.keys[s].line; k >= 0 {
				row[s] = room.pumps[i*len(room.base)+k]
			}
		}
		for _, b := range e.belts {
			run := electric.of(mRunning, b.id)
			if run == nil {
				continue
			}
			shaft := in.floats(len(run))
			for at := range shaft {
				p, err := electrical.ShaftPower(units.Power(run[at]), b.eff, b.belt)
				if err != nil {
					return nil, err
				}
				shaft[at] = float64(p)
			}
			for s := range room.keys {
				k := &room.keys[s]
				row[s] += shaft[k.plug*len(room.hours)+k.hour]
			}
		}
	}
	return n, nil
}
