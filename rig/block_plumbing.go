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
	for i := range in.hoses {
		h := &in.hoses[i]
		if !h.hasReel || h.outside == 0 {
			continue
		}
		fit, err := h.reel.Fit(h.outside, h.length)
		if err != nil {
			return nil, units.At("lines["+h.id+"].reel", err)
		}
		put(mReelHolds, h.id, float64(fit.Capacity))
	}
	for i := range in.pumps {
		p := &in.pumps[i]
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
	l := &in.lines.in
	if l.nLines == 0 || len(l.pumps) == 0 {
		return in.out(fixed), nil
	}
	lines, err := in.lines.within(in.w)
	if err != nil {
		return nil, err
	}
	heat := 0
	if l.hasHeat {
		heat = heatSteady
	}
	states := in.room(1 << l.nLines)
	for g := range 1 << l.nLines {
		s := State{set: in.axes}.with(AxisGuns, g+1)
		if heat > 0 {
			s = s.with(AxisHeat, heat)
		}
		states = append(states, s)
	}
	k := scratch[plumbingWork](in.w)
	k.on, k.l, k.lines, k.heat = in.bench(), l, lines[0], heat
	n := in.newNumbers(states)
	for i := range l.pumps {
		if err := k.plumb(&l.pumps[i], in.hoses, n); err != nil {
			return nil, units.At("pumps["+l.pumps[i].id+"]", err)
		}
	}
	return in.out(fixed, n), nil
}

// plumbingWork is what the lines of one pump after another are solved with.
type plumbingWork struct {
	on    *bench
	l     *linesIn
	lines *numbers // of the block of the lines
	heat  int      // value of AxisHeat
	run   hydraulics.Run
	worn  pumpIn
	sets  []wornSet // by own guns
	rows  []hoseRows
}

// A wornSet is what one set of open guns does with worn tips.
type wornSet struct {
	done bool
	r    solved
}

// hoseRows are where the numbers of one line stand here, and the values of the same
// line in the block of the lines.
type hoseRows struct {
	speed, loss, surgeLow, surgeHigh, worn int
	flow, nozzle                           []float64
}

// plumb fills in the rows of one pump's lines: what its block of lines found, taken
// through each hose, and the same guns with worn tips.
func (w *plumbingWork) plumb(p *pumpIn, hoses []woundHose, n *numbers) error {
	add := func(m *Metric, part string) int { n.row(m, part); return len(n.rows) - 1 }
	w.rows = w.rows[:0]
	for k := range p.lines {
		id := p.lines[k].id
		w.rows = append(w.rows, hoseRows{add(mHoseSpeed, id), add(mHoseLoss, id), add(mSurgeLow, id), add(mSurgeHigh, id), add(mWorn, id),
			w.lines.of(mLineFlow, id), w.lines.of(mNozzlePressure, id)})
	}
	gap := add(mUnloaderGap, p.id)
	put := func(row, state int, v float64) { n.value[row*len(n.states)+state] = v }
	pressures := w.lines.of(mPumpPressure, p.id)
	var outlets []float64
	if p.heater != nil {
		outlets = w.lines.of(mOutlet, p.heater.id)
	}
	worn, err := wornPump(p, &w.worn)
	if err != nil {
		return err
	}
	full := 1<<len(p.lines) - 1
	w.sets = w.sets[:0]
	for range full + 1 {
		w.sets = append(w.sets, wornSet{})
	}
	for at := range w.lines.states {
		st := &w.lines.states[at]
		if int(st.v[AxisHeat]) != w.heat || st.v[AxisGuns] == 0 {
			continue
		}
		s := int(st.v[AxisGuns]) - 1 // the states here are the sets of guns in order
		own := 0
		for k := range p.lines {
			if s&(1<<p.lines[k].bit) != 0 {
				own |= 1 << k
			}
		}
		pressure := units.Pressure(pressures[at])
		if own == 0 || pressure != pressure {
			continue
		}
		// the water as it leaves the pump and as it leaves the heater
		abs := lineAbsolute(float64(pressure), w.l.site)
		cold, err := w.on.fluid(abs, w.l.water)
		if err != nil {
			return err
		}
		warm := cold
		if outlets != nil {
			if warm, err = w.on.fluid(abs, units.Kelvin(outlets[at])); err != nil {
				return err
			}
		}
		if own == full && p.unloader != 0 && pressure > 0 {
			put(gap, s, float64((p.unloader-pressure)/pressure))
		}
		tips := &w.sets[own]
		for k := range p.lines {
			if own&(1<<k) == 0 {
				continue
			}
			l, r := &p.lines[k], &w.rows[k]
			if !tips.done {
				// worn tips take their share off the pressure at the same flow
				w.on.near = pressure - replaceAt*units.Pressure(r.nozzle[at])
				tips.r, err = solveOne(w.l, worn, w.on, own, w.heat, &solved{}, nil)
				if w.on.near = 0; err != nil {
					return err
				}
				tips.done = true
			}
			if err := w.run.Set(warm, l.id, l.elements[l.ahead:l.ahead+1]); err != nil {
				return err
			}
			loss, _ := w.run.Loss(units.VolumeFlow(r.flow[at]) * units.VolumeFlow(cold.Density/warm.Density))
			h, speed := &hoses[l.bit], w.run.Element(0).Velocity
			put(r.speed, s, float64(speed))
			put(r.loss, s, float64(loss))
			if tips.r.ok {
				put(r.worn, s, float64(tips.r.nozzle[k]))
			}
			surge, err := hydraulics.TriggerSurge(hydraulics.Closing{Density: warm.Density, Speed: speed, Length: h.length, Time: h.release, WaveLow: h.wave, WaveHigh: h.wave})
			if err != nil {
				return units.At("lines["+l.id+"]", err)
			}
			put(r.surgeLow, s, float64(pressure+surge.Low))
			put(r.surgeHigh, s, float64(pressure+surge.High))
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
