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
	hours := in.hours
	if len(hours) == 0 {
		hours = []hour{{}}
	}
	base := []State{{set: in.axes}}
	if len(lines) > 0 {
		base = lines[0].states
	}
	// the line state of the greatest pump power over all engines' pumps
	worst, most := 0, -1.0
	pumpPower := func(e *engineIn, k int) float64 {
		sum := 0.0
		if len(lines) == 0 {
			return 0
		}
		for _, id := range e.pumps {
			if row := lines[0].of(mPumpShaft, id); row != nil && !math.IsNaN(row[k]) {
				sum += row[k]
			}
		}
		return sum
	}
	for k := range base {
		if base[k].v[AxisHeat] == heatStuck {
			continue
		}
		sum := 0.0
		for i := range in.engines {
			sum += pumpPower(&in.engines[i], k)
		}
		if sum > most*(1+1e-12) {
			worst, most = k, sum
		}
	}
	var states []State
	type key struct{ line, plug, hour int }
	var keys []key
	for pl := range max(in.plugs, 1) {
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
				keys = append(keys, key{k, pl, hi})
			}
		}
	}
	demand := func(states []State, keys []key, from int) (*numbers, error) {
		n := in.newNumbers(states)
		for i := range in.engines {
			e := &in.engines[i]
			if len(e.pumps) == 0 && len(e.belts) == 0 {
				continue
			}
			row := n.row(mEngineDemand, e.id)
			for s, k := range keys {
				sum := 0.0
				if k.line >= 0 {
					sum = pumpPower(e, k.line)
				}
				for _, b := range e.belts {
					if from >= len(electric) {
						continue
					}
					run := electric[from].of(mRunning, b.id)
					if run == nil {
						continue
					}
					p, err := electrical.ShaftPower(units.Power(run[k.plug*len(hours)+k.hour]), b.eff, b.belt)
					if err != nil {
						return nil, err
					}
					sum += float64(p)
				}
				row[s] = sum
			}
		}
		return n, nil
	}
	n, err := demand(states, keys, 0)
	if err != nil {
		return nil, err
	}
	out := []*numbers{n}
	if modes := in.electric.in.modes; len(modes) > 0 {
		// A mode that moves a plug meets its own guns.
		var states []State
		var keys []key
		for i, m := range modes {
			line := -1
			for k := range base {
				if int(base[k].v[AxisGuns]) == m.guns && base[k].v[AxisHeat] != heatStuck && (line < 0 || base[k].v[AxisHeat] == heatSteady) {
					line = k
				}
			}
			for hi, h := range hours {
				s := State{set: in.axes}
				if line >= 0 {
					s = base[line]
				}
				states, keys = append(states, s.with(AxisSite, h.state).with(AxisMode, m.mode)), append(keys, key{line, i, hi})
			}
		}
		byMode, err := demand(states, keys, 1)
		if err != nil {
			return nil, err
		}
		out = append(out, byMode)
	}
	if in.site.Given() && len(in.hours) > 0 {
		var hs []State
		for _, h := range in.hours {
			hs = append(hs, State{set: in.axes}.with(AxisSite, h.state))
		}
		has := in.newNumbers(hs)
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
		out = append(out, has)
	}
	return out, nil
}
