package hydraulics

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// WaveBand returns the band of pressure-wave speeds that is carried for a hose whose
// own is not known: 1500 to 4000 ft/s (common practice, no source for either end). It
// cannot be computed from bore and wall, because the reinforcement decides.
func WaveBand() (low, high units.Velocity) {
	return 1500 * units.FootPerSecond, 4000 * units.FootPerSecond
}

// WaveSpeed returns the speed of a pressure wave in a thin-walled elastic pipe.
//
//	a = √(K/ρ) / √(1 + K D/(E e))
//
// K is the bulk modulus of the liquid, ρ its density, D the bore, e the wall, E the
// modulus of the wall.
//
// Range: a homogeneous wall much thinner than the bore; a reinforced hose has none, see
// [WaveBand].
//
// Source: D. J. Korteweg, Ann. Phys. 241(12), 1878, pp. 525–542.
func WaveSpeed(bulk units.Pressure, rho units.Density, bore, wall units.Length, modulus units.Pressure) (units.Velocity, error) {
	var bad problem.List
	within(&bad, "bulk", bulk, 1, 1e15)
	within(&bad, "density", rho, minDensity, maxDensity)
	within(&bad, "bore", bore, minBore, maxBore)
	within(&bad, "wall", wall, 1e-9, maxBore)
	within(&bad, "modulus", modulus, 1, 1e15)
	if bad != nil {
		return 0, bad.Join()
	}
	k := float64(bulk)
	return units.Velocity(math.Sqrt(k / float64(rho) / (1 + k*float64(bore)/(float64(modulus)*float64(wall))))), nil
}

// HoseWaveSpeed returns the speed of a pressure wave in a hose whose swelling has been
// measured.
//
//	a = 1/√( ρ (1/K + ΔV/(V Δp)) )
//
// K is the bulk modulus of the liquid, ρ its density, ΔV what the hose takes up more
// when its pressure rises by Δp, and V = (π/4) d² L what its length holds. A sheet
// prints ΔV by length as the volumetric expansion at a pressure.
//
// Range: a measurement between two working pressures. One from no pressure at all counts
// the slack of the reinforcement, and one made slowly finds the hose softer than a wave
// does (measured dynamic stiffness is above the static one): both give a speed that is
// too low, and a surge that is.
//
// Source: balance of mass, as in [WaveSpeed], of which it is the form for any wall; the
// measurement is that of ISO 6801.
func HoseWaveSpeed(bulk units.Pressure, rho units.Density, bore, length units.Length, swell units.Volume, by units.Pressure) (units.Velocity, error) {
	var bad problem.List
	within(&bad, "bulk", bulk, 1, 1e15)
	within(&bad, "density", rho, minDensity, maxDensity)
	within(&bad, "bore", bore, minBore, maxBore)
	within(&bad, "length", length, minLength, maxLength)
	within(&bad, "swell", swell, 1e-18, 1e9)
	within(&bad, "by", by, minPressure, maxPressure)
	if bad != nil {
		return 0, bad.Join()
	}
	d := float64(bore)
	give := float64(swell) / (math.Pi / 4 * d * d * float64(length) * float64(by))
	return units.Velocity(1 / math.Sqrt(float64(rho)*(1/float64(bulk)+give))), nil
}

// Joukowsky returns the pressure that a sudden change of speed adds.
//
//	Δp = ρ a Δv
//
// a is the wave speed. Sudden is anything faster than 2L/a: see [TriggerSurge].
//
// Source: N. Joukowsky, "Über den hydraulischen Stoss in Wasserleitungsröhren", Mém.
// Acad. Imp. Sci. St.-Pétersbourg 9(5), 1898.
func Joukowsky(rho units.Density, wave, change units.Velocity) (units.Pressure, error) {
	var bad problem.List
	within(&bad, "density", rho, minDensity, maxDensity)
	within(&bad, "wave", wave, 1e-3, 1e5)
	atMost(&bad, "change", change, 1e5)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.Pressure(float64(rho) * float64(wave) * float64(change)), nil
}

// SlowClosing returns the pressure that stopping a rigid column evenly adds.
//
//	Δp = ρ L v / t
//
// L is the length of the column, v its speed before, t the time of closing.
//
// Range: t well above 2L/a. A valve does not stop the column evenly; [TriggerSurge]
// uses twice this, Michaud's bound.
func SlowClosing(rho units.Density, length units.Length, v units.Velocity, t units.Duration) (units.Pressure, error) {
	var bad problem.List
	within(&bad, "density", rho, minDensity, maxDensity)
	within(&bad, "length", length, minLength, maxLength)
	atMost(&bad, "speed", v, 1e5)
	within(&bad, "time", t, 1e-9, 1e9)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.Pressure(float64(rho) * float64(length) * float64(v) / float64(t)), nil
}

// A Closing is a trigger that is let go at the end of a hose.
type Closing struct {
	Density units.Density
	Speed   units.Velocity // in the hose before
	Length  units.Length   // of the hose
	Time    units.Duration // of closing; zero: at once

	// Speed of a pressure wave in this hose: measured, or computed where the wall
	// allows. Not given: the band of [WaveBand].
	WaveLow, WaveHigh units.Velocity
}

// A Surge is what a closing adds to the working pressure at the trigger.
type Surge struct {
	Low, High units.Pressure // for the slow and the fast end of the wave speed

	// Return is how long the wave takes to the far end and back, at the fast and the
	// slow wave speed. A relief valve at the pump hears of the surge after half of
	// it, when the peak at the trigger is long there: it does not see this transient.
	ReturnFast, ReturnSlow units.Duration
}

// TriggerSurge returns the surge at a trigger, as a band where the wave speed is one.
//
//	Δp = ρ v · min( a, 2 L/t )
//
// Closing within the return time 2L/a is sudden and gives Joukowsky's pressure; slower
// closing at most Michaud's 2 ρ L v/t. Where a rating lies inside the band, only a hose
// of known wave speed or a slower trigger settles the question.
//
// Source: [Joukowsky]; J. Michaud, "Coups de bélier dans les conduites", Bull. Soc.
// vaudoise Ing. Arch. 4, 1878.
func TriggerSurge(c Closing) (Surge, error) {
	if c.WaveLow == 0 && c.WaveHigh == 0 {
		c.WaveLow, c.WaveHigh = WaveBand()
	}
	var bad problem.List
	within(&bad, "density", c.Density, minDensity, maxDensity)
	atMost(&bad, "speed", c.Speed, 1e5)
	within(&bad, "length", c.Length, minLength, maxLength)
	atMost(&bad, "time", c.Time, 1e9)
	within(&bad, "waveLow", c.WaveLow, 1e-3, 1e5)
	within(&bad, "waveHigh", c.WaveHigh, 1e-3, 1e5)
	if c.WaveLow > c.WaveHigh {
		bad.Add("waveLow", c.WaveLow.String(), "no more than waveHigh, "+c.WaveHigh.String(), units.ErrConflict)
	}
	if bad != nil {
		return Surge{}, bad.Join()
	}
	l := 2 * float64(c.Length)
	at := func(a units.Velocity) units.Pressure {
		v := float64(a)
		if c.Time > 0 {
			v = math.Min(v, l/float64(c.Time))
		}
		return units.Pressure(float64(c.Density) * float64(c.Speed) * v)
	}
	return Surge{
		Low:        at(c.WaveLow),
		High:       at(c.WaveHigh),
		ReturnFast: units.Duration(l / float64(c.WaveHigh)),
		ReturnSlow: units.Duration(l / float64(c.WaveLow)),
	}, nil
}
