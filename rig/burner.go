package rig

import (
	"errors"
	"math"

	"example.com/washrig/internal/water"
	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// steelHeat is the specific heat of carbon steel, handbook value.
const steelHeat units.SpecificHeat = 490

// burnerFuel is the fuel of a burner by its elements. Kerosene and diesel are
// taken as light heating oil: their water dew points differ by 1 °F.
func burnerFuel(word string) thermal.Fuel {
	if word == "propane" {
		return thermal.Propane()
	}
	return thermal.LightHeatingOil()
}

// siegertFuel is the same for Siegert's formula.
func siegertFuel(word string) thermal.SiegertFuel {
	if word == "propane" {
		return thermal.SiegertLPG()
	}
	return thermal.SiegertOil()
}

// outside reports an error that says that a state lies outside what a correlation
// covers, or contradicts itself: then there is no number in that state. Any other
// error is one of the block.
func outside(err error) bool {
	return errors.Is(err, units.ErrRange) || errors.Is(err, units.ErrConflict)
}

// A fire is a burner's plate as far as it decides its heat.
type fire struct {
	efficiency units.Ratio
	value      units.HeatingValueByVolume
	nozzle     units.FuelRate
	oil        units.Pressure
}

func fireOf(h *Heater) fire { return fire{h.Efficiency, h.HeatingValue, h.OilNozzle, h.OilPressure} }

// rate is what its oil nozzle passes; ok is false without one.
func (f *fire) rate() (units.FuelRate, bool, error) {
	if f.nozzle == 0 || f.oil == 0 {
		return 0, false, nil
	}
	r, err := thermal.NozzleFlow(f.nozzle, f.oil)
	return r, err == nil, err
}

// output is the heat of its nozzle, else the heat that is asked of it with every
// gun open.
func (f *fire) output(asked units.Power) (units.Power, error) {
	r, ok, err := f.rate()
	if err != nil || !ok {
		return asked, err
	}
	return thermal.HeatFromFiring(r, thermal.EfficiencyHHV(f.efficiency), thermal.HHV(f.value))
}

// gunStates finds the states of the lines block by the guns that are open, with
// the heat steady, and which of them are looked at in detail: every gun open, and
// each gun alone.
type gunStates struct {
	n     *numbers
	index []int32  // by AxisGuns: where the state stands, and one more
	few   []uint16 // values of AxisGuns, every gun first
	all   uint16
}

// of finds the states, in the memory of g; it is false where there are none.
func (g *gunStates) of(lines []*numbers, axes *axisSet) (*gunStates, bool) {
	if len(lines) == 0 {
		return nil, false
	}
	*g = gunStates{n: lines[0], index: g.index[:0], few: g.few[:0], all: uint16(axes.count(AxisGuns))}
	for i := range g.n.states {
		s := &g.n.states[i]
		if s.v[AxisHeat] != heatSteady {
			continue
		}
		for len(g.index) <= int(s.v[AxisGuns]) {
			g.index = append(g.index, 0)
		}
		g.index[s.v[AxisGuns]] = int32(i) + 1
	}
	if g.all < 2 || len(g.index) == 0 {
		return nil, false
	}
	g.few = append(g.few, g.all)
	for bit := uint16(1); bit < g.all; bit *= 2 {
		if bit+1 != g.all {
			g.few = append(g.few, bit+1)
		}
	}
	return g, true
}

// at returns a number of the lines block with the given guns open and the heat
// steady; ok is false where there is none.
func (g *gunStates) at(m *Metric, part string, guns uint16) (float64, bool) {
	if int(guns) >= len(g.index) || g.index[guns] == 0 {
		return 0, false
	}
	row := g.n.of(m, part)
	if row == nil {
		return 0, false
	}
	x := row[g.index[guns]-1]
	return x, !math.IsNaN(x)
}

// through is the flow through a pump's heater, metered cold.
func (g *gunStates) through(lines *linesIn, pump string, guns uint16) float64 {
	sum := 0.0
	for i := range lines.pumps {
		p := &lines.pumps[i]
		if p.id != pump {
			continue
		}
		for k := range p.lines {
			if q, ok := g.at(mLineFlow, p.lines[k].id, guns); ok {
				sum += q
			}
		}
	}
	return sum
}

// liquidBelow reports whether water of T kelvins stays liquid at p pascals.
func liquidBelow(p units.AbsolutePressure, T float64) bool {
	return !water.Boils(float64(p), T, -0.01) // above the critical pressure there is no boiling
}

// lineAbsolute is a gauge pressure above the site's air, within the water tables and no
// lower than that air: in a line that falls far below its pump the column breaks.
func lineAbsolute(gauge float64, site units.AbsolutePressure) units.AbsolutePressure {
	return max(min(units.AbsolutePressure(gauge)+site, mostPressure), site)
}
