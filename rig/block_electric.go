package rig

import (
	"sort"

	"example.com/washrig/electrical"
	"example.com/washrig/fuel"
	"example.com/washrig/units"
)

// electricIn is what running loads and starts depend on.
type electricIn struct {
	work
	axes    *axisSet
	plugs   []plugState
	modes   []modePlugs
	hours   []hour
	site    units.Elevation
	sources []sourceIn
	loads   []electrical.Load
}

type sourceIn struct {
	id                     string
	running, starting      units.Power
	windingRun, windingTop units.Power // of the alternator alone; zero: not given
	runningApparent        units.ApparentPower
	startingApparent       units.ApparentPower
	own                    bool // its own engine derates it
	derating               fuel.PlateDerating
}

// ownEngine reports whether an engine of its own, and so the air of the site,
// limits a source.
func (g *Source) ownEngine() bool {
	return g.Type == "portable" || (g.Type == "inverter" && g.Battery == "")
}

// factor is the share of its plate that the source's own engine gives in the
// air of an hour; one for a source without, and where the site is not known.
func (s *sourceIn) factor(site units.Elevation, h hour) (units.Ratio, error) {
	if !s.own || !site.Given() || !h.air.Given() {
		return 1, nil
	}
	return s.derating.Factor(site, h.air)
}

// limits returns the limits of the source where its engine gives a share of
// its plate: the winding does not gain by thick air nor lose by thin.
func (s *sourceIn) limits(factor units.Ratio) electrical.Limits {
	least := func(p, winding units.Power) units.Power {
		p *= units.Power(factor)
		if winding != 0 && (p == 0 || winding < p) {
			return winding
		}
		return p
	}
	return electrical.Limits{Rated: least(s.running, s.windingRun), Start: least(s.starting, s.windingTop), RatedApparent: s.runningApparent, StartApparent: s.startingApparent}
}

func (m *Model) electricInput() electricIn {
	s := m.spec
	in := electricIn{axes: m.axes, plugs: m.plugs, modes: pluggedModes(s), hours: m.hours(), site: s.Site.Elevation}
	for i := range s.Sources {
		g := &s.Sources[i]
		in.sources = append(in.sources, sourceIn{g.ID, g.Running, g.Starting, g.AlternatorRunning, g.AlternatorStarting, g.RunningApparent, g.StartingApparent, g.ownEngine(),
			fuel.PlateDerating{PerThousandFeet: g.PerThousandFeet, PerTenFahrenheitAbove: g.PerTenFahrenheit}})
	}
	for i := range s.Loads {
		in.loads = append(in.loads, s.Loads[i].electric())
	}
	return in
}

// solveElectric judges every plug assignment with every load switched on, and
// every mode that moves a plug with its own loads. Switching a load off never
// raises the running load, the best start or the restart of its source, so the
// states with fewer loads are dominated and not enumerated; a mode that moves a
// plug is not dominated by the listed plugs.
func solveElectric(in *electricIn) ([]*numbers, error) {
	if len(in.sources) == 0 {
		return nil, nil
	}
	hours := in.hours
	if len(hours) == 0 {
		hours = []hour{{}}
	}
	var plugged []State
	var on []([]int) // source by load
	var hourOf []int
	for i := range max(len(in.plugs), 1) {
		for hi, h := range hours {
			s := State{set: in.axes}.with(AxisSite, h.state)
			var source []int
			if len(in.plugs) > 0 {
				s, source = s.with(AxisPlugs, i+1), in.plugs[i].source
			}
			plugged, on, hourOf = append(plugged, s), append(on, source), append(hourOf, hi)
		}
	}
	byPlug, err := in.asked(plugged, on, hours, hourOf)
	if err != nil {
		return nil, err
	}
	out := []*numbers{byPlug}
	if len(in.modes) > 0 {
		var states []State
		on, hourOf = nil, nil
		for _, m := range in.modes {
			for hi, h := range hours {
				states, on, hourOf = append(states, State{set: in.axes}.with(AxisSite, h.state).with(AxisMode, m.mode)), append(on, m.source), append(hourOf, hi)
			}
		}
		byMode, err := in.asked(states, on, hours, hourOf)
		if err != nil {
			return nil, err
		}
		out = append(out, byMode)
	}

	// limits by the hour, for the sources whose own engine feels the air
	var states []State
	for _, h := range in.hours {
		states = append(states, State{set: in.axes}.with(AxisSite, h.state))
	}
	byHour, always := in.newNumbers(states), in.newNumbers(in.one(in.axes))
	for k := range in.sources {
		src := &in.sources[k]
		for _, lim := range []struct {
			m *Metric
			s units.ApparentPower
		}{{mRunApparentLimit, src.runningApparent}, {mStartApparentLimit, src.startingApparent}} {
			if lim.s != 0 {
				always.row(lim.m, src.id)[0] = float64(lim.s)
			}
		}
		for _, lim := range []struct {
			m  *Metric
			of func(electrical.Limits) units.Power
		}{{mRunLimit, func(l electrical.Limits) units.Power { return l.Rated }}, {mStartLimit, func(l electrical.Limits) units.Power { return l.Start }}} {
			if lim.of(src.limits(1)) == 0 {
				continue
			}
			if !src.own {
				always.row(lim.m, src.id)[0] = float64(lim.of(src.limits(1)))
				continue
			}
			if !in.site.Given() || len(in.hours) == 0 {
				continue
			}
			row := byHour.row(lim.m, src.id)
			for i, h := range in.hours {
				f, err := src.factor(in.site, h)
				if err != nil {
					return nil, err
				}
				row[i] = float64(lim.of(src.limits(f)))
			}
		}
	}
	return append(out, always, byHour), nil
}

// asked returns what the loads ask of every source in each state: on is the
// source of every load, hourOf the hour.
func (in *electricIn) asked(states []State, on [][]int, hours []hour, hourOf []int) (*numbers, error) {
	n := in.newNumbers(states)
	for k, src := range in.sources {
		metrics := [...]*Metric{mRunning, mStart, mRestart, mStartAny, mRunApparent, mStartApparent}
		for _, m := range metrics {
			n.row(m, src.id)
		}
		var row [len(metrics)][]float64
		for i, m := range metrics {
			row[i] = n.of(m, src.id)
		}
		var p electrical.Peaks
		for i := range states {
			loads := in.on(on[i], k)
			if len(loads) == 0 {
				for r := range row {
					if r < 4 || src.runningApparent != 0 || src.startingApparent != 0 {
						row[r][i] = 0
					}
				}
				continue
			}
			f, err := src.factor(in.site, hours[hourOf[i]])
			if err != nil {
				return nil, err
			}
			limits := src.limits(f)
			// The order of starts is one of watts, the same in every hour, unless
			// volt-amperes are limited.
			if same := i > 0 && limits.StartApparent == 0 && len(on[i]) > 0 && len(on[i-1]) > 0 && &on[i][0] == &on[i-1][0]; !same {
				if p, err = peaks(loads, limits); err != nil {
					return nil, err
				}
			}
			row[0][i], row[1][i], row[2][i], row[3][i] = float64(p.Running.Power), float64(p.Best.Power), float64(p.Restart.Power), float64(p.Worst.Power)
			if p.Running.Apparent > 0 {
				row[4][i], row[5][i] = float64(p.Running.Apparent), float64(p.Best.Apparent)
			}
		}
	}
	return n, nil
}

// on returns the loads of a source, in order of name; plugged is the source of
// every load.
func (in *electricIn) on(plugged []int, source int) []electrical.Load {
	var loads []electrical.Load
	for j := range plugged {
		if plugged[j] == source {
			loads = append(loads, in.loads[j])
		}
	}
	sort.Slice(loads, func(a, b int) bool { return loads[a].Name < loads[b].Name })
	return loads
}

// peaks returns what loads ask of a source. Orders are those of least watts,
// or of the least share of the start limits where volt-amperes have one.
func peaks(loads []electrical.Load, limits electrical.Limits) (electrical.Peaks, error) {
	if limits.StartApparent == 0 {
		return electrical.StartPeaks(loads)
	}
	r, err := electrical.StartsOn(loads, electrical.Limits{Start: limits.Start, StartApparent: limits.StartApparent})
	if err != nil {
		return electrical.Peaks{}, err
	}
	return electrical.Peaks{Running: r.Running, Best: r.Best.Peak, Worst: r.Worst.Peak, Restart: r.Restart.Peak}, nil
}
