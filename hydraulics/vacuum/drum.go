package vacuum

import (
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Level is how the water in the vacuum tank moves.
type Level struct {
	Net units.VolumeFlow // in less out; positive rises

	// Trips is that the float shuts the vacuum off if nothing changes, after Trip.
	Trips bool
	Trip  units.Duration

	// Empties is that the level falls to the bottom, after Empty.
	Empties bool
	Empty   units.Duration
}

// Fill returns how the water in a vacuum tank moves. Holds is the volume between the
// level at which the dump pump loses the water and the one at which the float
// shuts the vacuum; held is what stands in it now. In is what is picked up, out what
// the dump takes; a negative out is water that comes back.
//
//	t = (V − V₀)/(q_in − q_out)
//
// At the float the vacuum stops: the drum no longer holds the dump back, and no
// water is picked up until it has cleared.
//
// Errors: a *[units.FieldError] for each input.
func Fill(holds, held units.Volume, in, out units.VolumeFlow) (Level, error) {
	var p problem.List
	problem.Within(&p, "holds", holds, minVolume, maxVolume)
	if !(held >= 0 && held <= holds) {
		p.Add("held", held.String(), "0 to what it holds, "+holds.String(), units.ErrRange)
	}
	problem.Between(&p, "in", in, 0, maxFlow)
	problem.Between(&p, "out", out, -maxFlow, maxFlow)
	if err := p.Join(); err != nil {
		return Level{}, err
	}
	l := Level{Net: in - out}
	const least = 1e-12 // m³/s; slower is still
	switch {
	case float64(l.Net) > least:
		l.Trips, l.Trip = true, units.Duration(float64(holds-held)/float64(l.Net))
	case float64(l.Net) < -least:
		l.Empties, l.Empty = true, units.Duration(float64(held)/-float64(l.Net))
	}
	return l, nil
}

// A Cycle is a vacuum tank that fills and is cleared by turns.
type Cycle struct {
	Continuous bool           // the dump keeps up: the vacuum never stops
	On         units.Duration // from the cleared level to the float
	Off        units.Duration // until the dump has cleared it, with the vacuum stopped
	Never      bool           // the dump does not clear it even without vacuum
	Duty       units.Ratio    // share of the time in which water is picked up: 1 if continuous, 0 if it never clears
}

// FloatCycle returns how the float and the dump take turns. In is what is picked
// up, out what the dump takes against the vacuum, free what it takes without
// ([Dump.At] a vacuum of zero).
//
//	on = V/(in − out),  off = V/free,  duty = on/(on + off)
//
// Errors: a *[units.FieldError] for each input.
func FloatCycle(holds units.Volume, in, out, free units.VolumeFlow) (Cycle, error) {
	l, err := Fill(holds, 0, in, out)
	var p problem.List
	p.Take("", err)
	problem.Between(&p, "free", free, -maxFlow, maxFlow)
	if err := p.Join(); err != nil {
		return Cycle{}, err
	}
	if !l.Trips {
		return Cycle{Continuous: true, Duty: 1}, nil
	}
	c := Cycle{On: l.Trip}
	if !(float64(free) > 1e-12) {
		c.Never = true
		return c, nil
	}
	c.Off = units.Duration(float64(holds) / float64(free))
	c.Duty = units.Ratio(float64(c.On) / float64(c.On+c.Off))
	return c, nil
}
