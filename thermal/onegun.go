package thermal

import (
	"fmt"

	"example.com/washrig/units"
)

// A GunHeat is what a burner that fires all the time would do to one flow, and
// what its thermostat makes of it.
type GunHeat struct {
	Flow units.VolumeFlow
	// Uncontrolled is the outlet with the burner on all the time: what the
	// line meets when the thermostat sticks.
	Uncontrolled Outlet
	// Needed is the heat that takes this flow from inlet to setting; zero if
	// the inlet is at or above it.
	Needed units.Power
	// Duty is Needed over the burner's output: the share of time that a
	// thermostat at the setting lets it fire. Above 1 the burner cannot hold
	// the setting at this flow. Without output it is 1 if heat is needed, else 0.
	Duty units.Ratio
	// Controlled is the outlet with the thermostat working: the setting, or
	// what the burner manages. Not given if Uncontrolled is a runaway and the
	// flow zero: then nothing controls it but the flow switch.
	Controlled units.Temperature
}

// HeatAtFlow returns what a heater of constant output does to a flow: the
// uncontrolled outlet temperature and the thermostat's share of time. With one gun
// of two open the flow halves and the rise doubles, and the thermostat becomes a
// safety part.
//
// Range as [OutletTemperature]; setting from 0 °C to 350 °C, below boiling at the
// line pressure unless steam is meant.
func HeatAtFlow(flow units.VolumeFlow, in units.Temperature, output units.Power, setting units.Temperature, line units.AbsolutePressure) (GunHeat, error) {
	err := between("setting", setting, coldestWater, hottestWater)
	o, oerr := OutletTemperature(flow, in, output, line)
	if err := all(oerr, err); err != nil {
		return GunHeat{}, err
	}
	g := GunHeat{Flow: flow, Uncontrolled: o}
	if setting.Kelvin() > in.Kelvin() {
		if g.Needed, err = HeatRequired(flow, in, setting, line); err != nil {
			return GunHeat{}, err
		}
	}
	switch {
	case output > 0:
		g.Duty = units.Ratio(g.Needed / output)
	case g.Needed > 0:
		g.Duty = 1 // a burner without output never stops trying
	}
	if !finite(float64(g.Duty)) {
		return GunHeat{}, refuse("output", output.String(), "zero or a heat that can be compared with "+g.Needed.String(), units.ErrRange)
	}
	switch {
	case flow == 0 && output > 0:
	case o.Phase == Runaway || g.Duty < 1:
		g.Controlled = setting
		if setting.Kelvin() < in.Kelvin() {
			g.Controlled = in
		}
	default:
		g.Controlled = o.Temperature
	}
	return g, nil
}

// HeatAtFlows is [HeatAtFlow] for every flow the lines can take, in the order
// given. Errors of the elements are named flows[#1], flows[#2], ….
func HeatAtFlows(flows []units.VolumeFlow, in units.Temperature, output units.Power, setting units.Temperature, line units.AbsolutePressure) ([]GunHeat, error) {
	out := make([]GunHeat, len(flows))
	var problems []error
	for i, q := range flows {
		g, err := HeatAtFlow(q, in, output, setting, line)
		if ferr := flowing("", q); ferr != nil {
			problems = append(problems, units.At(fmt.Sprintf("flows[#%d]", i+1), ferr))
		} else if err != nil {
			return nil, err // the common inputs are at fault
		}
		out[i] = g
	}
	if err := all(problems...); err != nil {
		return nil, err
	}
	return out, nil
}
