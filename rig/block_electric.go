package rig

import (
	"sort"

	"example.com/washrig/electrical"
	"example.com/washrig/fuel"
	"example.com/washrig/units"
)

// electricIn is what running loads and starts depend on.
type electricIn struct {
	axes    *axisSet
	plugs   []plugState
	hours   []hour
	site    units.Elevation
	sources []sourceIn
	loads   []electrical.Load
}

type sourceIn struct {
	id                string
	running, starting units.Power
	own               bool // its own engine derates it
	derating          fuel.PlateDerating
}

func (m *Model) electricInput() electricIn {
	s := m.spec
	in := electricIn{axes: m.axes, plugs: m.plugs, hours: m.hours(), site: s.Site.Elevation}
	for i := range s.Sources {
		g := &s.Sources[i]
		in.sources = append(in.sources, sourceIn{g.ID, g.Running, g.Starting, g.Type == "portable",
			fuel.PlateDerating{PerThousandFeet: g.PerThousandFeet, PerTenFahrenheitAbove: g.PerTenFahrenheit}})
	}
	for i := range s.Loads {
		l := &s.Loads[i]
		starts := electrical.ByItself
		if l.Starts == "by-hand" {
			starts = electrical.ByHand
		}
		in.loads = append(in.loads, electrical.Load{Name: l.ID, Running: l.Running, Starting: l.Starting, Starts: starts})
	}
	return in
}

// solveElectric judges every plug assignment with every load switched on.
// Switching a load off never raises the running load, the best start or the
// restart of its source, so the states with fewer loads are dominated and not
// enumerated.
func solveElectric(in electricIn) ([]*numbers, error) {
	if len(in.sources) == 0 {
		return nil, nil
	}
	hours := in.hours
	if len(hours) == 0 {
		hours = []hour{{}}
	}
	var plugged []State
	var plug []int
	for i := range max(len(in.plugs), 1) {
		for _, h := range hours {
			s := State{set: in.axes}.with(AxisSite, h.state)
			if len(in.plugs) > 0 {
				s = s.with(AxisPlugs, i+1)
			}
			plugged, plug = append(plugged, s), append(plug, i)
		}
	}
	byPlug := newNumbers(plugged)
	for k, src := range in.sources {
		for _, m := range []*Metric{mRunning, mStart, mRestart} {
			byPlug.row(m, src.id)
		}
		run, start, restart := byPlug.of(mRunning, src.id), byPlug.of(mStart, src.id), byPlug.of(mRestart, src.id)
		for i := range plugged {
			var loads []electrical.Load
			if len(in.plugs) > 0 {
				for j := range in.loads {
					if in.plugs[plug[i]].source[j] == k {
						loads = append(loads, in.loads[j])
					}
				}
			}
			if len(loads) == 0 {
				run[i], start[i], restart[i] = 0, 0, 0
				continue
			}
			sort.Slice(loads, func(a, b int) bool { return loads[a].Name < loads[b].Name })
			p, err := electrical.StartPeaks(loads)
			if err != nil {
				return nil, err
			}
			run[i], start[i], restart[i] = float64(p.Running.Power), float64(p.Best.Power), float64(p.Restart.Power)
		}
	}
	out := []*numbers{byPlug}

	// limits by the hour, for the sources whose own engine feels the air
	var states []State
	for _, h := range in.hours {
		states = append(states, State{set: in.axes}.with(AxisSite, h.state))
	}
	byHour, always := newNumbers(states), newNumbers([]State{{set: in.axes}})
	for _, src := range in.sources {
		if !src.own {
			if src.running != 0 {
				always.row(mRunLimit, src.id)[0] = float64(src.running)
			}
			if src.starting != 0 {
				always.row(mStartLimit, src.id)[0] = float64(src.starting)
			}
			continue
		}
		if !in.site.Given() || len(in.hours) == 0 {
			continue
		}
		for _, lim := range []struct {
			m *Metric
			p units.Power
		}{{mRunLimit, src.running}, {mStartLimit, src.starting}} {
			if lim.p == 0 {
				continue
			}
			row := byHour.row(lim.m, src.id)
			for i, h := range in.hours {
				f, err := src.derating.Factor(in.site, h.air)
				if err != nil {
					return nil, err
				}
				row[i] = float64(lim.p) * float64(f)
			}
		}
	}
	return append(out, always, byHour), nil
}
