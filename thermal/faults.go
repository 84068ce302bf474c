package thermal

import (
	"fmt"
	"math"

	"example.com/washrig/units"
)

// A Limit is a temperature that a part may bear, passed in by the caller.
type Limit struct {
	Name        string
	Temperature units.Temperature
}

// A Fault is what has failed, and at which flow.
type Fault struct {
	Name string
	Flow units.VolumeFlow
	// Failed controls do nothing: the thermostat never cuts, the high limit
	// never trips, the flow switch keeps the burner lit without flow.
	Thermostat, HighLimit, FlowSwitch bool
}

// Faults returns the usual table for a rig that runs at the flow full or, with fewer
// guns, at the flow part: each control failed alone, then thermostat and high limit
// together.
func Faults(full, part units.VolumeFlow) []Fault {
	return []Fault{
		{Name: "nothing failed, part flow", Flow: part},
		{Name: "thermostat stuck, full flow", Flow: full, Thermostat: true},
		{Name: "thermostat stuck, part flow", Flow: part, Thermostat: true},
		{Name: "high limit failed, part flow", Flow: part, HighLimit: true},
		{Name: "flow switch stuck, no flow", FlowSwitch: true},
		{Name: "flow switch and thermostat stuck, no flow", Thermostat: true, FlowSwitch: true},
		{Name: "thermostat and high limit failed, part flow", Flow: part, Thermostat: true, HighLimit: true},
		{Name: "all failed, no flow", Thermostat: true, HighLimit: true, FlowSwitch: true},
	}
}

// A Guard is what stops the burner.
type Guard uint8

// The zero Guard is invalid.
const (
	NoGuard         Guard = iota + 1 // nothing: it fires on
	FlowGuard                        // the flow switch, at once
	ThermostatGuard                  // the thermostat, which lets it fire again
	HighLimitGuard                   // the high limit, which is reset by hand
	WeakFire                         // none is needed: full fire does not reach the lowest setting
)

var guardNames = [...]string{"invalid guard", "nothing", "flow switch", "thermostat", "high limit", "weak fire"}

// String returns the guard in words.
func (g Guard) String() string {
	if int(g) >= len(guardNames) {
		g = 0
	}
	return guardNames[g]
}

// Controls are the settings of a heater's safety chain.
type Controls struct {
	Thermostat Thermostat
	// HighLimit cuts the fire for good; not given, there is none. It trips after
	// HighLimitDelay.
	HighLimit      units.Temperature
	HighLimitDelay units.Duration
	// FlowSwitchDelay is from the flow's stop to the fire's.
	FlowSwitchDelay units.Duration
}

// A LimitCheck is one limit in one fault.
type LimitCheck struct {
	Limit  Limit
	Passed bool                   // the water gets above it
	Margin units.TemperatureDelta // limit less highest water; 0 if Unbounded
	After  units.Duration         // from the fault to the limit, if Passed
}

// A FaultResult is what the water comes to in a fault.
type FaultResult struct {
	Fault Fault
	Guard Guard
	// Highest the water gets, at the outlet or standing in the coil. Not given if
	// Unbounded: fire without an end, above 350 °C or without flow.
	Highest   units.Temperature
	Unbounded bool
	Outlet    Outlet // with full fire for ever; its phase tells steam and runaway
	Limits    []LimitCheck
}

// FaultTable returns for each fault how hot the water gets and which guard stops the
// burner, against limits passed in: hose, swivel, gun, coil, boiling at the site.
//
// With flow and all failed the water gets to the outlet of full fire,
// [OutletTemperature]. A guard that works stops it at its setting plus what its delay
// and the heat in the metal add ([Heater.Cycle]; for the high limit the rise of its
// delay and the metal's rest). Without flow the coil boils in seconds to minutes: the
// times come from the two heat stores of [Heater], liquid all along. Times run from
// steady operation at the setting; times of what only full fire reaches, too.
//
// Range: as [Heater.Cycle]; up to 100 faults and 100 limits.
func FaultTable(h Heater, in units.Temperature, line units.AbsolutePressure, c Controls, faults []Fault, limits []Limit) ([]FaultResult, error) {
	err := faultInputs(h, in, line, c)
	if len(faults) > 100 || len(limits) > 100 {
		err = all(err, refuse("faults", fmt.Sprint(len(faults)), "at most 100 faults and 100 limits", units.ErrRange))
	}
	for i, l := range limits {
		err = all(err, between(fmt.Sprintf("limits[#%d]", i+1), l.Temperature, coldestWater, units.Kelvin(2000)))
	}
	for i, f := range faults {
		err = all(err, flowing(fmt.Sprintf("faults[#%d].flow", i+1), f.Flow))
	}
	if err != nil {
		return nil, err
	}
	out := make([]FaultResult, 0, len(faults))
	for i, f := range faults {
		r, err := h.fault(in, line, c, f)
		if err != nil {
			return nil, units.At(fmt.Sprintf("faults[#%d]", i+1), err)
		}
		if err := h.check(&r, in, line, c, limits); err != nil {
			return nil, units.At(fmt.Sprintf("faults[#%d]", i+1), err)
		}
		out = append(out, r)
	}
	return out, nil
}

// Fault is one row of [FaultTable], without limits. Range as there.
func (h Heater) Fault(in units.Temperature, line units.AbsolutePressure, c Controls, f Fault) (FaultResult, error) {
	if err := faultInputs(h, in, line, c); err != nil {
		return FaultResult{}, err
	}
	if err := flowing("fault.flow", f.Flow); err != nil {
		return FaultResult{}, err
	}
	r, err := h.fault(in, line, c, f)
	return r, units.At("fault", err)
}

// faultInputs checks what every fault shares.
func faultInputs(h Heater, in units.Temperature, line units.AbsolutePressure, c Controls) error {
	err := all(h.Validate(), between("in", in, coldestWater, hottestWater), linePressure("line", line), units.At("thermostat", c.Thermostat.validate()),
		inside("highLimitDelay", c.HighLimitDelay, 0, 3600*units.Second), inside("flowSwitchDelay", c.FlowSwitchDelay, 0, 3600*units.Second))
	if c.HighLimit.Given() {
		err = all(err, between("highLimit", c.HighLimit, coldestWater, hottestWater))
	}
	return err
}

// fault finds guard and highest temperature.
func (h Heater) fault(in units.Temperature, line units.AbsolutePressure, c Controls, f Fault) (FaultResult, error) {
	o, err := OutletTemperature(f.Flow, in, h.Output, line)
	if err != nil {
		return FaultResult{}, err
	}
	r := FaultResult{Fault: f, Outlet: o}
	set := c.Thermostat.Setting
	feed := Feed{Flow: f.Flow, In: in, Line: line}

	if f.Flow == 0 {
		// Flow has just stopped: from the state at cut-out in steady operation, or
		// from metal and water at the setting where the flow before is not known.
		from := HeaterState{Metal: set.Add(units.TemperatureDelta(float64(h.Output) / float64(h.Conductance))), Water: set}
		if set.Kelvin() < in.Kelvin() {
			from.Water = in
		}
		switch {
		case !f.FlowSwitch:
			r.Guard = FlowGuard
			rel, err := h.Release(line, from, c.FlowSwitchDelay)
			if err != nil {
				return FaultResult{}, err
			}
			r.Highest = rel.Peak
		case !f.Thermostat:
			// The thermostat feels the standing water and cuts at its setting,
			// after its delay.
			r.Guard = ThermostatGuard
			rel, err := h.Release(line, from, c.Thermostat.StopDelay)
			if err != nil {
				return FaultResult{}, err
			}
			r.Highest = rel.Peak
		case !f.HighLimit && c.HighLimit.Given():
			r.Guard = HighLimitGuard
			at, err := h.standingAt(line, from, c.HighLimit)
			if err != nil {
				return FaultResult{}, err
			}
			rel, err := h.Release(line, at, c.HighLimitDelay)
			if err != nil {
				return FaultResult{}, err
			}
			r.Highest = rel.Peak
		default:
			r.Guard, r.Unbounded = NoGuard, h.Output > 0
			if !r.Unbounded {
				r.Highest = from.Water
			}
		}
		if r.Highest.Kelvin() > hottestLiquid {
			r.Highest, r.Unbounded = units.Temperature{}, true
		}
		return r, nil
	}

	hot := func() (units.Temperature, bool) { return o.Temperature, o.Phase != Runaway }
	T, bounded := hot()
	reaches := func(t units.Temperature) bool { return !bounded || T.Kelvin() > t.Kelvin() }
	switch {
	case !f.Thermostat && !reaches(set), f.Thermostat && c.HighLimit.Given() && !f.HighLimit && !reaches(c.HighLimit):
		r.Guard = WeakFire
		r.Highest = T
	case !f.Thermostat:
		r.Guard = ThermostatGuard
		k, err := h.Cycle(feed, c.Thermostat)
		if err != nil {
			return FaultResult{}, err
		}
		r.Highest = k.Highest
	case !f.HighLimit && c.HighLimit.Given():
		r.Guard = HighLimitGuard
		// One cycle of a thermostat in the place of the limit has its overshoot.
		k, err := h.Cycle(feed, Thermostat{Setting: c.HighLimit, Differential: c.Thermostat.Differential, StopDelay: c.HighLimitDelay})
		if err != nil {
			return FaultResult{}, relabel(err, "thermostat.setting", "highLimit")
		}
		r.Highest = k.Highest
	default:
		r.Guard, r.Unbounded = NoGuard, !bounded
		if bounded {
			r.Highest = T
		}
	}
	return r, nil
}

// standingAt is the state in which water standing over a full fire is at a
// temperature.
func (h Heater) standingAt(line units.AbsolutePressure, from HeaterState, at units.Temperature) (HeaterState, error) {
	if from.Water.Kelvin() >= at.Kelvin() {
		return from, nil
	}
	n, err := h.network(Feed{In: from.Water, Line: line}, from.Water, true)
	if err != nil {
		return HeaterState{}, relabel(err, "hot", "thermostat.setting")
	}
	m := n.solve()
	t, ok := m.reach(from.pair(), waterNode, at.Kelvin())
	if !ok {
		return from, nil // the fire is too weak to get there
	}
	return m.at(from.pair(), t).state(), nil
}

// check sets the limits of a result.
func (h Heater) check(r *FaultResult, in units.Temperature, line units.AbsolutePressure, c Controls, limits []Limit) error {
	set := c.Thermostat.Setting
	from := HeaterState{Metal: set.Add(units.TemperatureDelta(float64(h.Output) / float64(h.Conductance))), Water: set}
	var m modes
	if len(limits) > 0 {
		f := Feed{Flow: r.Fault.Flow, In: in, Line: line}
		n, err := h.network(f, set, true)
		if err != nil {
			return relabel(err, "hot", "thermostat.setting")
		}
		m = n.solve()
	}
	r.Limits = make([]LimitCheck, len(limits))
	for i, l := range limits {
		k := LimitCheck{Limit: l, Passed: r.Unbounded || r.Highest.Kelvin() > l.Temperature.Kelvin()}
		if !r.Unbounded {
			k.Margin = l.Temperature.Sub(r.Highest)
		}
		if k.Passed && from.Water.Kelvin() < l.Temperature.Kelvin() {
			if t, ok := m.reach(from.pair(), waterNode, l.Temperature.Kelvin()); ok {
				k.After = units.Duration(t)
			}
		}
		r.Limits[i] = k
	}
	return nil
}

// A HeatUp is standing water over a burning fire: the flow switch has failed.
type HeatUp struct {
	Rate   units.TemperatureDelta // kelvins a second once metal and water run up together
	Time   units.Duration         // to the temperature asked for; zero if Never
	Never  bool                   // losses hold it below
	Boiled bool                   // the temperature lies above boiling in the line: steam comes first
}

// StandingHeatUp returns how long water that stands in the coil over a full fire
// takes to a temperature: how many seconds there are to notice. Zero flow with the
// burner on is dangerous whatever the answer.
//
// Range: start below boiling at the line pressure.
func (h Heater) StandingHeatUp(start HeaterState, to units.Temperature, line units.AbsolutePressure) (HeatUp, error) {
	err := all(h.Validate(), start.validate("start"), between("to", to, coldestWater, units.Kelvin(2000)), linePressure("line", line))
	if err == nil {
		err = liquidAt("start.water", float64(line), start.Water.Kelvin())
	}
	if err != nil {
		return HeatUp{}, err
	}
	n, err := h.network(Feed{In: start.Water, Line: line}, start.Water, true)
	if err != nil {
		return HeatUp{}, relabel(err, "hot", "start.water")
	}
	m := n.solve()
	u := HeatUp{Rate: units.TemperatureDelta((n.q + n.G*(n.Tg-start.Metal.Kelvin()) - n.L*(start.Metal.Kelvin()-n.Ta)) / (n.Cs + n.Cw))}
	if boils, ok := boilingAt(float64(line)); ok {
		u.Boiled = to.Kelvin() > boils
	}
	if start.Water.Kelvin() < to.Kelvin() {
		t, ok := m.reach(start.pair(), waterNode, to.Kelvin())
		u.Never, u.Time = !ok, units.Duration(math.Max(0, t))
	}
	return u, nil
}
