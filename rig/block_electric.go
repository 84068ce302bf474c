package rig

import (
	"slices"

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

// electricRoom is what solving the block needs besides.
type electricRoom struct {
	hours   []hour
	asks    []asks
	loads   []electrical.Load
	starter electrical.Starter
}

// asks is one state of what loads ask of sources.
type asks struct {
	plugged []int // source by load
	hour    int
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
	room := scratch[electricRoom](in.w)
	hours := append(room.hours[:0], in.hours...)
	if len(hours) == 0 {
		hours = append(hours, hour{})
	}
	room.hours = hours
	room.asks = room.asks[:0]
	plugged := in.room(max(len(in.plugs), 1) * len(hours))
	for i := range max(len(in.plugs), 1) {
		for hi, h := range hours {
			s := State{set: in.axes}.with(AxisSite, h.state)
			var source []int
			if len(in.plugs) > 0 {
				s, source = s.with(AxisPlugs, i+1), in.plugs[i].source
			}
			plugged = append(plugged, s)
			room.asks = append(room.asks, asks{source, hi})
		}
	}
	byPlug, err := in.asked(room, plugged)
	if err != nil {
		return nil, err
	}
	var byMode *numbers
	if len(in.modes) > 0 {
		states := in.room(len(in.modes) * len(hours))
		room.asks = room.asks[:0]
		for _, m := range in.modes {
			for hi, h := range hours {
				states = append(states, State{set: in.axes}.with(AxisSite, h.state).with(AxisMode, m.mode))
				room.asks = append(room.asks, asks{m.source, hi})
			}
		}
		if byMode, err = in.asked(room, states); err != nil {
			return nil, err
		}
	}

	// limits by the hour, for the sources whose own engine feels the air
	states := in.room(len(in.hours))
	for _, h := range in.hours {
		states = append(states, State{set: in.axes}.with(AxisSite, h.state))
	}
	byHour, always := in.newNumbers(states), in.newNumbers(in.one(in.axes))
	for k := range in.sources {
		src := &in.sources[k]
		if s := src.runningApparent; s != 0 {
			always.row(mRunApparentLimit, src.id)[0] = float64(s)
		}
		if s := src.startingApparent; s != 0 {
			always.row(mStartApparentLimit, src.id)[0] = float64(s)
		}
		plate := src.limits(1)
		run, start := plate.Rated != 0, plate.Start != 0
		if !src.own {
			if run {
				always.row(mRunLimit, src.id)[0] = float64(plate.Rated)
			}
			if start {
				always.row(mStartLimit, src.id)[0] = float64(plate.Start)
			}
			continue
		}
		if !in.site.Given() || len(in.hours) == 0 {
			continue
		}
		if run {
			byHour.row(mRunLimit, src.id)
		}
		if start {
			byHour.row(mStartLimit, src.id)
		}
		runs, starts := byHour.of(mRunLimit, src.id), byHour.of(mStartLimit, src.id)
		for i, h := range in.hours {
			f, err := src.factor(in.site, h)
			if err != nil {
				return nil, err
			}
			l := src.limits(f)
			if run {
				runs[i] = float64(l.Rated)
			}
			if start {
				starts[i] = float64(l.Start)
			}
		}
	}
	if byMode != nil {
		return in.out(byPlug, byMode, always, byHour), nil
	}
	return in.out(byPlug, always, byHour), nil
}

// asked returns what the loads ask of every source in each state of room.asks.
func (in *electricIn) asked(room *electricRoom, states []State) (*numbers, error) {
	n := in.newNumbers(states)
	var factors [8]units.Ratio // of the first hours
	for k := range in.sources {
		src := &in.sources[k]
		metrics := [...]*Metric{mRunning, mStart, mRestart, mStartAny, mRunApparent, mStartApparent}
		first := len(n.rows)
		for _, m := range metrics {
			n.row(m, src.id)
		}
		var row [len(metrics)][]float64
		for i := range row {
			at := (first + i) * len(states)
			row[i] = n.value[at : at+len(states)]
		}
		var have [len(factors)]bool
		var p electrical.Peaks
		var done []int // plugs that the starter is set to
		for i := range states {
			a := &room.asks[i]
			same := i > 0 && len(a.plugged) > 0 && len(done) > 0 && &a.plugged[0] == &done[0]
			if !same {
				room.loads, done = in.on(room.loads, a.plugged, k), a.plugged
			}
			if len(room.loads) == 0 {
				for r := range row {
					if r < 4 || src.runningApparent != 0 || src.startingApparent != 0 {
						row[r][i] = 0
					}
				}
				continue
			}
			f, h := units.Ratio(0), a.hour
			if h < len(factors) && have[h] {
				f = factors[h]
			} else {
				var err error
				if f, err = src.factor(in.site, room.hours[h]); err != nil {
					return nil, err
				}
				if h < len(factors) {
					factors[h], have[h] = f, true
				}
			}
			// Orders are those of least watts, the same in every hour, or of the least
			// share of the start limits where volt-amperes have one.
			limits := src.limits(f)
			if limits.StartApparent == 0 {
				limits.Start = 0
			}
			if !same {
				if err := room.starter.Set(room.loads); err != nil {
					return nil, err
				}
			}
			if !same || limits.StartApparent != 0 {
				var err error
				if p, err = room.starter.Peaks(electrical.Limits{Start: limits.Start, StartApparent: limits.StartApparent}); err != nil {
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

// on returns the loads of a source, in order of name, written over loads; plugged is
// the source of every load.
func (in *electricIn) on(loads []electrical.Load, plugged []int, source int) []electrical.Load {
	loads = loads[:0]
	for j := range plugged {
		if plugged[j] != source {
			continue
		}
		at := len(loads)
		for at > 0 && loads[at-1].Name > in.loads[j].Name {
			at--
		}
		loads = slices.Insert(loads, at, in.loads[j])
	}
	return loads
}
