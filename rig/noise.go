package rig

import (
	"math"
	"slices"

	"example.com/washrig/electrical"
	"example.com/washrig/units"
)

// Levels of 29 CFR 1910.95 and of NIOSH publication 98-126 (1998), in dB(A).
const (
	actionLevel     = 85.0 // 1910.95(c): hearing conservation from here on, eight hours
	osha            = 90.0 // 1910.95(b), table G-16: eight hours
	oshaExchange    = 5.0
	oshaThreshold   = 80.0 // 1910.95(d)(2)(i): levels from here on are counted
	niosh           = 85.0 // recommended exposure limit, eight hours
	nioshExchange   = 3.0
	nioshThreshold  = 80.0
	referenceHours  = 8 * 3600.0 // s
	nearestDistance = 1.0        // m: nearer than this a machine is no point
)

// levelAt carries a level of dB(A) from one distance to another by the inverse
// square of a point source over open ground: 6.02 dB for each doubling. Nearer than
// a metre the level of a metre stands.
func levelAt(level, told, distance float64) float64 {
	return level - 20*math.Log10(math.Max(distance, nearestDistance)/told)
}

// doseTime is the time in which a level makes a whole dose, in seconds:
//
//	T = 8 h / 2^((L − criterion)/exchange)
//
// Source: 29 CFR 1910.95 Appendix A, with 90 and 5 dB; NIOSH publication 98-126,
// chapter 1.1, with 85 and 3 dB.
func doseTime(level, criterion, exchange float64) float64 {
	return referenceHours / math.Exp2((level-criterion)/exchange)
}

// noiseIn is what sound levels by mode depend on.
type noiseIn struct {
	work
	axes  *axisSet
	told  units.Length
	at    units.Length
	modes []noisyMode
}

type noisyMode struct {
	time  float64
	parts []float64 // levels at the told distance
	guns  []float64 // levels at the ear; each operator has his own, the loudest counts
}

// deriveNoise fills the distances that sound levels need, where any is given.
func (m *Model) deriveNoise() {
	s := m.spec
	if !anyNoise(s) {
		return
	}
	if s.Duty.NoiseDistance == 0 {
		s.Duty.NoiseDistance = 7 * units.Meter
		m.origins["duty.noise_distance"] = Origin{Basis: Assumed, Why: "generator sheets tell levels at 7 m, 23 ft (common practice)"}
	}
	if s.Duty.OperatorDistance == 0 {
		s.Duty.OperatorDistance = 10 * units.Foot
		m.assume("duty.operator_distance", Band{(3 * units.Foot).Quantity(), (10 * units.Foot).Quantity(), (50 * units.Foot).Quantity(), "between the panel and the end of a hose, common practice"})
	}
}

func anyNoise(s *Spec) bool {
	for i := range s.Engines {
		if s.Engines[i].Noise != 0 {
			return true
		}
	}
	for i := range s.Heaters {
		if s.Heaters[i].Noise != 0 {
			return true
		}
	}
	for i := range s.Sources {
		if s.Sources[i].Noise != 0 {
			return true
		}
	}
	for i := range s.Loads {
		if s.Loads[i].Noise != 0 {
			return true
		}
	}
	for i := range s.Lines {
		if s.Lines[i].Noise != 0 {
			return true
		}
	}
	return false
}

func (m *Model) noiseInput() noiseIn {
	s := m.spec
	if !anyNoise(s) {
		return noiseIn{}
	}
	in := noiseIn{axes: m.axes, told: s.Duty.NoiseDistance, at: s.Duty.OperatorDistance}
	for k := range modesOf(s) {
		mode := &modesOf(s)[k]
		run := runsIn(s, mode)
		n := noisyMode{time: float64(mode.Time)}
		add := func(level int, on bool) {
			if on && level != 0 {
				n.parts = append(n.parts, float64(level))
			}
		}
		for i := range s.Engines {
			add(s.Engines[i].Noise, run.engine(s.Engines[i].ID))
		}
		for i := range s.Heaters {
			add(s.Heaters[i].Noise, run.heater(s.Heaters[i].ID))
		}
		for i := range s.Sources {
			add(s.Sources[i].Noise, run.source(s.Sources[i].ID))
		}
		for i := range s.Loads {
			add(s.Loads[i].Noise, run.load(s.Loads[i].ID))
		}
		for i := range s.Lines {
			if l := &s.Lines[i]; l.Noise != 0 && run.gun(l.ID) {
				n.guns = append(n.guns, float64(l.Noise))
			}
		}
		in.modes = append(in.modes, n)
	}
	return in
}

// noiseRoom is what solving the block needs besides.
type noiseRoom struct{ near, far []float64 }

// solveNoise returns the level at the operator and at 50 ft by mode, and the doses
// of the day.
func solveNoise(in *noiseIn) ([]*numbers, error) {
	if len(in.modes) == 0 {
		return nil, nil
	}
	room := scratch[noiseRoom](in.w)
	states := in.room(len(in.modes))
	for k := range in.modes {
		states = append(states, State{set: in.axes}.with(AxisMode, k+1))
	}
	n, day := in.newNumbers(states), in.newNumbers(in.one(in.axes))
	n.row(mSoundLevel, "")
	n.row(mSoundFar, "")
	level, distant := n.of(mSoundLevel, ""), n.of(mSoundFar, "")
	told := float64(in.told)
	dose, strict, timed := 0.0, 0.0, false
	for k := range in.modes {
		w := &in.modes[k]
		near, far := room.near[:0], room.far[:0]
		for _, l := range w.parts {
			near = append(near, levelAt(l, told, float64(in.at)))
			far = append(far, levelAt(l, told, float64(50*units.Foot)))
		}
		loudest := 0.0
		for _, l := range w.guns {
			loudest = math.Max(loudest, l)
			far = append(far, levelAt(l, nearestDistance, float64(50*units.Foot)))
		}
		if loudest > 0 {
			near = append(near, loudest)
		}
		if w.time > 0 {
			timed = true
		}
		slices.Sort(near) // so that the sum does not depend on the order of the lists
		slices.Sort(far)
		room.near, room.far = near, far
		if len(near) == 0 {
			continue
		}
		at := electrical.SumLevels(near...)
		level[k], distant[k] = at, electrical.SumLevels(far...)
		if at >= oshaThreshold {
			dose += w.time / doseTime(at, osha, oshaExchange)
		}
		if at >= nioshThreshold {
			strict += w.time / doseTime(at, niosh, nioshExchange)
		}
	}
	if timed {
		day.row(mNoiseDose, "")[0] = dose
		day.row(mNoiseStrict, "")[0] = strict
	}
	return in.out(n, day), nil
}

// Metrics of noise. They are never changed.
var (
	mSoundLevel = &Metric{Path: "duty.sound_level", Kind: units.KindRatio, Better: Lower, Label: "sound level at the operator in dB(A)",
		Formula: "10 log10 Σ 10^(L/10), each part's level less 20 log10(distance / distance of its sheet), the loudest gun at its operator's ear", Source: "definition of the sound pressure level; inverse square of a point source over open ground", Inputs: noiseInputs}
	mSoundFar = &Metric{Path: "duty.sound_level_50_ft", Kind: units.KindRatio, Better: Lower, Label: "sound level at 50 ft (15 m) in dB(A)",
		Formula: "the same at 50 ft, guns counted from a metre", Source: "definition of the sound pressure level; inverse square of a point source over open ground", Inputs: noiseInputs}
	mNoiseDose = &Metric{Path: "duty.noise_dose", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "noise dose of the day by 29 CFR 1910.95",
		Formula: "Σ hours of each mode / (8 h / 2^((L − 90)/5)), levels from 80 dB(A) on, nothing worn", Source: "29 CFR 1910.95 Appendix A", Inputs: append([]Path{"modes[].time"}, noiseInputs...)}
	mNoiseStrict = &Metric{Path: "duty.noise_dose_niosh", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "noise dose of the day by the NIOSH criterion",
		Formula: "Σ hours of each mode / (8 h / 2^((L − 85)/3)), levels from 80 dB(A) on, nothing worn", Source: "NIOSH publication 98-126 (1998)", Inputs: append([]Path{"modes[].time"}, noiseInputs...)}

	noiseInputs = []Path{"duty.noise_distance", "duty.operator_distance", "engines[].noise", "heaters[].noise", "sources[].noise", "loads[].noise", "lines[].noise"}
)

// noiseMetrics lists them in the order of reports.
var noiseMetrics = []*Metric{mSoundLevel, mSoundFar, mNoiseDose, mNoiseStrict}

// openNoise lists machines whose sound level nobody gave, where that of others is: a sum
// without them is the least it can be.
func openNoise(s *Spec, add func(Path, string)) {
	if !anyNoise(s) {
		return
	}
	const leave = "its share of every sound level and dose, which are the least they can be"
	for i := range s.Engines {
		if e := &s.Engines[i]; e.Noise == 0 {
			add(Path("engines["+e.ID+"].noise"), leave)
		}
	}
	for i := range s.Heaters {
		if h := &s.Heaters[i]; h.Noise == 0 {
			add(Path("heaters["+h.ID+"].noise"), leave)
		}
	}
	for i := range s.Sources {
		if g := &s.Sources[i]; g.Noise == 0 && g.ownEngine() {
			add(Path("sources["+g.ID+"].noise"), leave)
		}
	}
	for i := range s.Recovery {
		for _, id := range s.Recovery[i].Loads {
			for k := range s.Loads {
				if l := &s.Loads[k]; l.ID == id && l.Noise == 0 {
					add(Path("loads["+id+"].noise"), leave)
				}
			}
		}
	}
	for i := range s.Lines {
		if n := &s.Lines[i]; n.Noise == 0 {
			add(Path("lines["+n.ID+"].noise"), leave)
		}
	}
}
