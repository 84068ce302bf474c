package hydraulics

import (
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// Limits are the least ratings of a set of parts.
type Limits struct {
	Pressure      Part     // the part with the least pressure rating; the zero Part where none has one
	Temperature   Part     // likewise for temperature
	NoPressure    []string // names of the parts whose pressure rating is not given
	NoTemperature []string
}

// Weakest returns the least pressure and the least temperature rating among parts, by
// name, and which parts have none. Of equals the first counts. It serves the low side
// too: tank, suction hose, strainer and filter bowl, wherever bypassed or recovered
// hot water can go.
func Weakest(parts []Part) Limits {
	var l Limits
	for _, p := range parts {
		switch {
		case !(p.MaxPressure > 0):
			l.NoPressure = append(l.NoPressure, p.Name)
		case l.Pressure.MaxPressure == 0 || p.MaxPressure < l.Pressure.MaxPressure:
			l.Pressure = p
		}
		switch {
		case !p.MaxTemperature.Given():
			l.NoTemperature = append(l.NoTemperature, p.Name)
		case !l.Temperature.MaxTemperature.Given() || p.MaxTemperature.Kelvin() < l.Temperature.MaxTemperature.Kelvin():
			l.Temperature = p
		}
	}
	return l
}

// PathParts returns the plates of regulators and elements from the manifold to the end of a
// section, in the order of flow. An element without a name gets that of its section
// and its position.
func (n *Network) PathParts(section int) ([]Part, error) {
	if section < 0 || section >= len(n.Sections) {
		return nil, &units.FieldError{Path: "section", Value: problem.Format(float64(section)), Want: "the index of a section", Err: units.ErrRange}
	}
	if err := n.Validate(); err != nil {
		return nil, err
	}
	var way []int
	for i := section; i >= 0; i = n.Sections[i].Parent {
		way = append(way, i)
	}
	var parts []Part
	for k := len(way) - 1; k >= 0; k-- {
		i := way[k]
		if r := n.Sections[i].Regulator; r != nil {
			p := r.Plate()
			if p.Name == "" {
				p.Name = n.path(i) + ".regulator"
			}
			parts = append(parts, p)
		}
		for j, e := range n.Sections[i].Elements {
			p := e.Plate()
			if p.Name == "" {
				p.Name = n.path(i) + ".elements[#" + problem.Format(float64(j+1)) + "]"
			}
			parts = append(parts, p)
		}
	}
	return parts, nil
}

// A Rung is one pressure of the ladder from working pressure to the weakest part.
type Rung struct {
	Name     string
	Pressure units.Pressure
	Gap      units.Pressure // to the rung below; negative where the order is wrong
	Share    units.Ratio    // Gap over the pressure of the rung below
}

// Ladder returns the pressures that have to lie in order: working, unloader set point,
// unloader with the whole flow bypassed, relief set point, relief with the whole flow
// of the pump through it, weakest rating. A rung that is not there (no unloader, no
// relief, no rating) is left out.
//
// flow is what the pump delivers; a relief that is rated for less passes the rest only
// at a higher pressure, which is the rung that says so.
func Ladder(working units.Pressure, u Unloader, r Relief, flow units.VolumeFlow, weakest units.Pressure) ([]Rung, error) {
	var bad problem.List
	atMost(&bad, "working", working, maxPressure)
	if u.Kind != NoUnloader {
		within(&bad, "unloader.set", u.Set, minPressure, maxPressure)
		atMost(&bad, "unloader.rise", u.Rise, maxPressure)
	}
	if r.Given() {
		within(&bad, "relief.set", r.Set, minPressure, maxPressure)
		atMost(&bad, "relief.accumulation", r.Accumulation, maxPressure)
		atMost(&bad, "relief.flow", r.Flow, maxFlow)
	}
	within(&bad, "flow", flow, minFlow, maxFlow)
	atMost(&bad, "weakest", weakest, maxPressure)
	if bad != nil {
		return nil, bad.Join()
	}
	rungs := []Rung{{Name: "working", Pressure: working}}
	add := func(name string, p units.Pressure) {
		below := rungs[len(rungs)-1].Pressure
		rung := Rung{Name: name, Pressure: p, Gap: p - below}
		if below > 0 {
			rung.Share = units.Ratio(float64(rung.Gap) / float64(below))
		}
		rungs = append(rungs, rung)
	}
	if u.Kind != NoUnloader {
		add("unloader", u.Set)
		add("unloader, whole flow bypassed", u.Set+u.Rise)
	}
	if r.Given() {
		add("relief", r.Set)
		share := 1.0
		if r.Flow > 0 {
			share = float64(flow) / float64(r.Flow)
		}
		add("relief, whole flow", r.Set+r.Accumulation*units.Pressure(share))
	}
	if weakest > 0 {
		add("weakest rating", weakest)
	}
	return rungs, nil
}
