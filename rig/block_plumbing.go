package rig

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/units"
)

// plumbingIn is what hoses, guns, valves and drives depend on beyond the line
// block.
type plumbingIn struct {
	work
	axes  *axisSet
	lines *block[linesIn]
	pumps []drivenPump
	hoses []woundHose // by index in the specification
}

type drivenPump struct {
	id           string
	rated        units.VolumeFlow
	plungers     hydraulics.Plungers
	volumetric   units.Ratio
	speed        units.RotationalSpeed
	motor        units.RotationalSpeed // governed speed at full load
	driver, pump units.Length
	slip         units.Ratio
	valve        hydraulics.Unloader
	relief       units.Pressure
}

type woundHose struct {
	id      string
	length  units.Length
	outside units.Length
	wave    units.Velocity
	release units.Duration
	reel    hydraulics.Reel
	hasReel bool
}

func (m *Model) plumbingInput(b *blocks) plumbingIn {
	s := m.spec
	in := plumbingIn{axes: m.axes, lines: b.lines}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		d := drivenPump{id: p.ID, rated: p.RatedFlow, volumetric: p.VolumetricEfficiency, speed: p.Speed, driver: p.EnginePulley, pump: p.PumpPulley, slip: p.BeltSlip,
			plungers: hydraulics.Plungers{Count: p.Plungers, Diameter: p.PlungerDiameter, Stroke: p.Stroke}, valve: unloaderOf(&p.Unloader), relief: p.Relief.Setting}
		for k := range s.Engines {
			if e := &s.Engines[k]; e.ID == p.Engine && e.NoLoadSpeed != 0 {
				d.motor = e.NoLoadSpeed / units.RotationalSpeed(1+float64(e.Droop))
			}
		}
		in.pumps = append(in.pumps, d)
	}
	for i := range s.Lines {
		l := &s.Lines[i]
		in.hoses = append(in.hoses, woundHose{l.ID, l.Hose.Length, l.Hose.OutsideDiameter, l.Hose.WaveSpeed, l.Release,
			hydraulics.Reel{Core: l.Reel.Core, Flange: l.Reel.Flange, Width: l.Reel.Width, Clearance: l.Reel.Clearance}, l.Reel.Core != 0})
	}
	return in
}

// solvePlumbing returns the numbers that need a whole line solution: speeds and
// surges by open guns, the worn tips, and those that need none: reels, ladder,
// geometry and belt.
func solvePlumbing(in *plumbingIn) ([]*numbers, error) {
	fixed := in.newNumbers(in.one(in.axes))
	put := func(m *Metric, part string, v float64) { fixed.row(m, part)[0] = v }
	for _, h := range in.hoses {
		if !h.hasReel || h.outside == 0 {
			continue
		}
		fit, err := h.reel.Fit(h.outside, h.length)
		if err != nil {
			return nil, units.At("lines["+h.id+"].reel", err)
		}
		put(mReelHolds, h.id, float64(fit.Capacity))
	}
	for _, p := range in.pumps {
		if p.valve.Kind != hydraulics.NoUnloader && p.relief != 0 {
			put(mReliefGap, p.id, float64((p.relief-p.valve.Set-p.valve.Rise)/p.valve.Set))
		}
		speed := p.speed
		if p.motor != 0 && p.driver != 0 && p.pump != 0 {
			b, err := hydraulics.Belt{Driver: p.driver, Driven: p.pump, Slip: p.slip}.At(p.motor)
			if err != nil {
				return nil, units.At("pumps["+p.id+"]", err)
			}
			put(mPumpSpeed, p.id, float64(b.Driven))
			speed = b.Driven
		}
		if p.plungers.Count != 0 && p.plungers.Diameter != 0 && p.plungers.Stroke != 0 && speed != 0 {
			v, err := p.plungers.Displacement()
			if err != nil {
				return nil, units.At("pumps["+p.id+"]", err)
			}
			eff := p.volumetric
			if eff == 0 {
				eff = 1
			}
			q, err := hydraulics.PumpFlow(v, speed, eff)
			if err != nil {
				return nil, units.At("pumps["+p.id+"]", err)
			}
			put(mGeometryFlow, p.id, float64(q))
			put(mGeometryGap, p.id, math.Abs(float64(q-p.rated))/float64(p.rated))
		}
	}
	out := []*numbers{fixed}
	l := &in.lines.in
	if l.nLines == 0 || len(l.pumps) == 0 {
		return out, nil
	}
	heat := 0
	if l.hasHeat {
		heat = heatSteady
	}
	states := make([]State, 0, 1<<l.nLines)
	for g := range 1 << l.nLines {
		s := State{set: in.axes}.with(AxisGuns, g+1)
		if heat > 0 {
			s = s.with(AxisHeat, heat)
		}
		states = append(states, s)
	}
	n := in.newNumbers(states)
	for i := range l.pumps {
		if err := plumb(in.bench(), l, &l.pumps[i], in.hoses, heat, n); err != nil {
			return nil, units.At("pumps["+l.pumps[i].id+"]", err)
		}
	}
	return append(out, n), nil
}

// plumb fills in the rows of one pump's lines.
func plumb(on *bench, l *linesIn, p *pumpIn, hoses []woundHose, heat int, n *numbers) error {
	for k := range p.lines {
		for _, m := range []*Metric{mHoseSpeed, mHoseLoss, mSurgeLow, mSurgeHigh, mWorn} {
			n.row(m, p.lines[k].id)
		}
	}
	n.row(mUnloaderGap, p.id)
	full := 1<<len(p.lines) - 1
	all, err := solveOne(l, p, on, full, heat, &solved{}, nil)
	if err != nil {
		return err
	}
	worn, err := wornPump(p, new(pumpIn))
	if err != nil {
		return err
	}
	type answer struct {
		k    kept
		r    solved
		worn solved
	}
	done := map[int]*answer{}
	for s, st := range n.states {
		own := 0
		for k := range p.lines {
			if (int(st.v[AxisGuns])-1)&(1<<p.lines[k].bit) != 0 {
				own |= 1 << k
			}
		}
		if own == 0 {
			continue
		}
		a := done[own]
		if a == nil {
			a = new(answer)
			if a.r, err = solveOne(l, p, on, own, heat, &all, &a.k); err != nil {
				return err
			}
			on.near = a.r.pressure
			a.worn, err = solveOne(l, worn, on, own, heat, &all, nil)
			if on.near = 0; err != nil {
				return err
			}
			done[own] = a
		}
		if !a.r.ok {
			continue
		}
		if own == full && p.unloader != 0 && a.r.pressure > 0 {
			n.of(mUnloaderGap, p.id)[s] = float64((p.unloader - a.r.pressure) / a.r.pressure)
		}
		for k := range p.lines {
			if own&(1<<k) == 0 {
				continue
			}
			id, h := p.lines[k].id, hoses[p.lines[k].bit]
			sec := a.k.res.Sections[len(a.k.res.Sections)-len(p.lines)+k]
			hose := sec.Elements[p.lines[k].ahead]
			n.of(mHoseSpeed, id)[s] = float64(hose.Velocity)
			n.of(mHoseLoss, id)[s] = float64(hose.Loss)
			if a.worn.ok {
				n.of(mWorn, id)[s] = float64(a.worn.nozzle[k])
			}
			surge, err := hydraulics.TriggerSurge(hydraulics.Closing{Density: a.k.warm.Density, Speed: hose.Velocity, Length: h.length, Time: h.release, WaveLow: h.wave, WaveHigh: h.wave})
			if err != nil {
				return units.At("lines["+id+"]", err)
			}
			n.of(mSurgeLow, id)[s] = float64(a.r.pressure + surge.Low)
			n.of(mSurgeHigh, id)[s] = float64(a.r.pressure + surge.High)
		}
	}
	return nil
}

// replaceAt is the share of its pressure at which a tip is replaced.
const replaceAt = 0.10

// wornPump is a pump whose tips are all worn to the limit of replacement, made in w.
func wornPump(p, w *pumpIn) (*pumpIn, error) {
	grown, err := hydraulics.WearAtLoss(replaceAt)
	if err != nil {
		return nil, err
	}
	lines := w.lines[:cap(w.lines)]
	*w = *p
	w.lines = lines[:0]
	for k := range p.lines {
		var tips []hydraulics.Nozzle
		if k < len(lines) {
			tips = lines[k].nozzles[:0]
		}
		w.lines = append(w.lines, p.lines[k])
		tips = append(tips, p.lines[k].nozzles...)
		for j := range tips {
			tips[j].Wear = max(tips[j].Wear, grown)
		}
		w.lines[k].nozzles = tips
	}
	return w, nil
}
