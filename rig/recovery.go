package rig

import (
	"math"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/internal/fields"
	"example.com/washrig/units"
)

// A FilterGauge is what the gauges about one water filter of a recovery unit read,
// and how long it lasts.
type FilterGauge struct {
	ID               string
	NewBefore        units.Pressure // before it, every filter new
	NewBehind        units.Pressure // behind it
	ChangeOutBefore  units.Pressure // before it, every filter at change-out
	ChangeOutBehind  units.Pressure // behind it
	FlowNew          units.VolumeFlow
	FlowAtChangeOut  units.VolumeFlow
	Lasts            units.Duration // washing time to change-out with every gun of the busiest mode open; zero where capacity or solids are not given
	DrumVacuum       units.Pressure // against which both flows are reckoned
	PumpRuns, Steady bool           // the dump pump moves water; it does so at change-out as well
}

// FilterGauges returns what the gauges about each water filter of a recovery unit
// should read, now and at change-out: while the dump pump runs against the
// greatest drum vacuum of a mode. It is reckoned anew; the numbers of the report
// are not changed. Empty where the unit has no filters, or its dump pump or site
// is not given.
func (r *Report) FilterGauges(unit string) ([]FilterGauge, error) {
	in := r.model.blocks.recovery.in
	for i := range in.units {
		if in.units[i].id == unit {
			return r.filterGauges(&in, &in.units[i])
		}
	}
	return nil, &units.FieldError{Path: "recovery[" + unit + "]", Value: unit, Want: "the id of a recovery unit", Err: fields.ErrUnknown}
}

func (r *Report) filterGauges(in *recoveryIn, u *recoveryUnit) ([]FilterGauge, error) {
	v := &View{model: r.model, numbers: r.numbers}
	vac, found := units.Pressure(0), false
	for x := range v.of(mDrumVacuum) {
		if x.Part == u.id && whilePickingUp(v, &x) {
			vac, found = max(vac, units.Pressure(x.Value.SI())), true
		}
	}
	if !found || len(u.filters) == 0 || !u.warm.Given() {
		return nil, nil
	}
	water, err := vacuum.Water(u.warm)
	if err != nil {
		return nil, err
	}
	d, ok, err := u.dump(water)
	if err != nil || !ok {
		return nil, err
	}
	read := func(loaded []units.Ratio) ([]units.Pressure, units.VolumeFlow, error) {
		d.Loaded = loaded
		out, err := d.At(vac)
		if err != nil || out.Flow <= 0 {
			return make([]units.Pressure, len(d.Filters)+1), 0, err
		}
		behind := units.Pressure(math.Max(float64(out.Lift+out.Line), -10) * float64(water.Density) * float64(units.StandardGravity))
		g, err := d.Filters.Gauges(out.Flow, water, loaded, behind)
		return g, out.Flow, err
	}
	fresh, q, err := read(nil)
	if err != nil {
		return nil, err
	}
	full, qFull, err := read(u.load(new(recoveryWork), filtersFull))
	if err != nil {
		return nil, err
	}
	lines, err := in.lines.result()
	if err != nil {
		return nil, err
	}
	spray := u.spray(lines, in.sprays())
	dirt := 0.0
	for _, m := range in.modes {
		dirt = math.Max(dirt, float64(u.dirt)*float64(in.share)*spray[m.guns])
	}
	if in.trigger > 0 {
		dirt *= float64(in.trigger)
	}
	out := make([]FilterGauge, len(u.filters))
	for i, f := range u.filters {
		out[i] = FilterGauge{ID: f.ID, NewBefore: fresh[i], NewBehind: fresh[i+1], ChangeOutBefore: full[i], ChangeOutBehind: full[i+1],
			FlowNew: q, FlowAtChangeOut: qFull, DrumVacuum: vac, PumpRuns: q > 0, Steady: qFull > 0}
		if keeps := dirt * float64(f.Captures); keeps > 0 && f.Capacity > 0 {
			out[i].Lasts = units.Duration(float64(f.Capacity) / keeps)
			dirt -= keeps
		}
	}
	return out, nil
}
