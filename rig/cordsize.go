package rig

import (
	"errors"
	"slices"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/fields"
	"example.com/washrig/units"
)

// ThinnestCord returns the thinnest gauge that would do for a cord as its loads
// are plugged in: its ampacity carries their current and is not below the
// breaker, and the voltage lost, running and starting, keeps the limits of the
// codes cord-drop and cord-start-drop of the report. The limits are taken for
// this cord alone. ok is false if no gauge of the table does, or if the
// voltage or the currents are not known.
func (r *Report) ThinnestCord(id string) (gauge string, ok bool, err error) {
	in := &r.model.blocks.wiring.in
	i := slices.IndexFunc(in.cords, func(c cordIn) bool { return c.id == id })
	if i < 0 {
		return "", false, &units.FieldError{Path: "cords[" + id + "]", Value: id, Want: "a cord of this rig", Err: fields.ErrUnknown}
	}
	need, ok := in.cordNeed(i)
	if !ok {
		return "", false, nil
	}
	need.RunDrop, need.StartDrop = units.Ratio(r.rules.limit("cord-drop").Fix.SI()), units.Ratio(r.rules.limit("cord-start-drop").Fix.SI())
	if need.RunDrop == 0 {
		need.RunDrop = 0.05
	}
	if need.StartDrop == 0 {
		need.StartDrop = 0.15
	}
	best, ok, _, err := electrical.ChooseCord(need)
	switch {
	case errors.Is(err, units.ErrConflict) || errors.Is(err, units.ErrRange): // no cord mends a breaker that is too small
		return "", false, nil
	case err != nil:
		return "", false, units.At("cords["+id+"]", err)
	case !ok:
		return "", false, nil
	}
	return best.Gauge.String(), true, nil
}

// cordNeed is what the loads of a cord ask of it on the source where it carries
// most, with the listed plugs.
func (in *wiringIn) cordNeed(i int) (electrical.CordNeed, bool) {
	c := &in.cords[i]
	var best electrical.CordNeed
	for k := range in.sources {
		if in.sources[k].voltage == 0 || (c.source >= 0 && c.source != k) {
			continue
		}
		var on []int
		for _, j := range in.on(0, k) {
			if slices.Contains(c.loads, j) {
				on = append(on, j)
			}
		}
		if len(on) == 0 {
			continue
		}
		sum := func(start starters) (phasor, bool) {
			var s phasor
			for _, j := range on {
				d, ok := in.draw(start, j)
				if !ok {
					return s, false
				}
				s = s.plus(d.times(1 / in.volts(j, k)))
			}
			return s, true
		}
		run, known := sum(nobody)
		var start phasor
		for _, j := range on {
			if s, ok := sum(in.startsOf(j)); ok && s.size() > start.size() {
				start = s
			}
		}
		if !known || units.Current(run.size()) <= best.Current {
			continue
		}
		breaker := in.sources[k].breaker
		if o := in.outletOf(on[0], k); o >= 0 && in.outlets[o].breaker != 0 {
			breaker = in.outlets[o].breaker
		}
		best = electrical.CordNeed{Supply: units.Voltage(in.volts(on[0], k)), Length: c.circuit.Length, Temperature: c.circuit.Temperature, Carrying: c.carrying,
			Current: units.Current(run.size()), PowerFactor: units.Ratio(min(run.p/run.size(), 1)),
			StartCurrent: units.Current(start.size()), StartPowerFactor: units.Ratio(min(start.p/start.size(), 1)), Breaker: breaker, Continuous: 1}
	}
	return best, best.Current > 0
}
