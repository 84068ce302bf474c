package rig

import (
	"math"

	"example.com/washrig/internal/air"
	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// heatIn is what clean firing, boiling and the settings depend on.
type heatIn struct {
	work
	axes    *axisSet
	lines   *block[linesIn]
	site    units.AbsolutePressure
	known   bool // the elevation was given
	hours   []hour
	heaters []coilIn
	pumps   []valvesIn
}

type coilIn struct {
	id               string
	efficiency       units.Ratio
	value            units.HeatingValueByVolume
	clean            units.FuelRate
	thermostat, high units.Temperature
	max              units.Temperature
	relief           units.Pressure
}

type valvesIn struct {
	id               string
	unloader, relief units.Pressure
}

// sitePressure returns the pressure of the standard atmosphere at the site's
// elevation.
func sitePressure(s *Spec) (units.AbsolutePressure, bool) {
	if !s.Site.Elevation.Given() {
		return 0, false
	}
	p, err := air.PressureAt(float64(s.Site.Elevation.Length()))
	if err != nil {
		return 0, false // the range of the field lies inside that of the atmosphere
	}
	return units.AbsolutePressure(p), true
}

func (m *Model) heatInput(lines *block[linesIn]) heatIn {
	in := heatIn{axes: m.axes, lines: lines, hours: m.hours()}
	in.site, in.known = sitePressure(m.spec)
	for i := range m.spec.Heaters {
		h := &m.spec.Heaters[i]
		in.heaters = append(in.heaters, coilIn{h.ID, h.Efficiency, h.HeatingValue, h.CleanFiring, h.Thermostat, h.HighLimit, h.MaximumTemperature, h.Relief})
	}
	for i := range m.spec.Pumps {
		p := &m.spec.Pumps[i]
		in.pumps = append(in.pumps, valvesIn{p.ID, p.Unloader.Setting, p.Relief.Setting})
	}
	return in
}

// solveHeat returns the numbers of burner and site: settings that do not depend
// on any state, clean firing by the hour, and the firing needed by open guns
// and hour.
func solveHeat(in *heatIn) ([]*numbers, error) {
	fixed := in.newNumbers(in.one(in.axes))
	put := func(m *Metric, part string, v float64) { fixed.row(m, part)[0] = v }
	var boiling units.Temperature
	if in.known {
		t, err := thermal.BoilingPoint(in.site)
		if err != nil {
			return nil, err
		}
		boiling = t
		put(mBoiling, "", t.Kelvin())
	}
	for _, p := range in.pumps {
		if p.unloader != 0 {
			put(mUnloaderSetting, p.id, float64(p.unloader))
		}
		if p.relief != 0 {
			put(mReliefSetting, p.id, float64(p.relief))
		}
	}
	for _, h := range in.heaters {
		if h.relief != 0 {
			put(mCoilRelief, h.id, float64(h.relief))
		}
		if h.thermostat.Given() {
			put(mThermostat, h.id, h.thermostat.Kelvin())
		}
		if h.high.Given() {
			put(mHighLimit, h.id, h.high.Kelvin())
		}
		top := h.max
		if !top.Given() {
			top = h.high
		}
		if top.Given() && boiling.Given() {
			put(mBoilingMargin, h.id, float64(boiling.Sub(top)))
		}
	}
	var hourly, steady *numbers

	if in.known && len(in.hours) > 0 {
		states := in.room(len(in.hours))
		for _, h := range in.hours {
			states = append(states, State{set: in.axes}.with(AxisSite, h.state))
		}
		n := in.newNumbers(states)
		for _, b := range in.heaters {
			if b.clean == 0 {
				continue
			}
			row := n.row(mClean, b.id)
			for i, h := range in.hours {
				r, err := thermal.CleanFiring(b.clean, in.site, h.air, 1)
				if err != nil {
					return nil, err
				}
				row[i] = float64(r)
			}
		}
		hourly = n
	}

	lines, err := in.lines.within(in.w)
	if err != nil {
		return nil, err
	}
	if len(lines) == 0 {
		return in.list(fixed, hourly, steady), nil
	}
	k := scratch[heatWork](in.w)
	from := k.from[:0]
	states := in.room(len(lines[0].states) * max(1, len(in.hours)))
	for i, s := range lines[0].states {
		if s.v[AxisHeat] != heatSteady {
			continue
		}
		if len(in.hours) == 0 {
			states, from = append(states, s), append(from, i)
		}
		for _, h := range in.hours {
			states, from = append(states, s.with(AxisSite, h.state)), append(from, i)
		}
	}
	k.from = from
	steady = in.newNumbers(states)
	for _, b := range in.heaters {
		heat := lines[0].of(mHeat, b.id)
		if heat == nil {
			continue
		}
		row := steady.row(mFiring, b.id)
		for i, k := range from {
			if math.IsNaN(heat[k]) {
				continue
			}
			r, err := thermal.FiringRate(units.Power(heat[k]), thermal.EfficiencyHHV(b.efficiency), thermal.HHV(b.value))
			if err != nil {
				return nil, err
			}
			row[i] = float64(r)
		}
	}
	return in.list(fixed, hourly, steady), nil
}

// heatWork is what a solution keeps: the state of the lines from which each state is.
type heatWork struct{ from []int }

// list is out without the numbers there are not.
func (k *work) list(n ...*numbers) []*numbers {
	at := 0
	for _, x := range n {
		if x != nil {
			n[at] = x
			at++
		}
	}
	return k.out(n[:at]...)
}
