package tank

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// A Suction is the line from a tank to the inlet of a pump, in one state.
type Suction struct {
	Site  units.AbsolutePressure // of the air at the site
	Water units.Temperature
	Level units.Length // of the water over the pump's inlet; negative where the pump lifts
	Flow  units.VolumeFlow

	// Vacuum holds the water back in a tank that breathes badly: see [Vent].
	Vacuum units.Pressure

	// Line is what the water passes, from the tank's outlet to the pump, but for the
	// strainer: entry, valves, hose. It may be empty.
	Line []hydraulics.Element

	Strainer  Strainer
	Pulsation Pulsation
}

// SuctionHead is the head at the inlet of a pump as a sum, each term with the sign
// with which it enters. Heads are columns of the water as it is.
type SuctionHead struct {
	Atmosphere   units.Length   // pressure of the air at the site
	Vapour       units.Length   // vapour pressure of the water, not above 0
	Static       units.Length   // level over the inlet
	Vacuum       units.Length   // vacuum in the tank, not above 0
	Line         units.Length   // Σ of Elements
	Strainer     units.Length   // not above 0
	Acceleration units.Length   // not above 0
	Available    units.Length   // the sum: net positive suction head
	Elements     []units.Length // of the line, in its order; above 0 only where it descends

	Fluid    hydraulics.Fluid // the water
	Velocity units.Velocity   // in the narrowest element that has a bore
}

// With returns the head with the water at another level and another loss of the
// strainer. They change nothing else; Elements is shared with h.
func (h SuctionHead) With(level units.Length, strainer units.Pressure) SuctionHead {
	h.Static, h.Strainer = level, -units.Length(float64(strainer)/(float64(h.Fluid.Density)*gravity))
	h.add()
	return h
}

func (h *SuctionHead) add() {
	h.Available = h.Atmosphere + h.Vapour + h.Static + h.Vacuum + h.Line + h.Strainer + h.Acceleration
}

// Head returns the net positive suction head that a pump has, and where it goes.
//
//	h = (p_site − p_v(T))/(ρ g) + level − (vacuum + Σ losses + strainer)/(ρ g) − h_a
//
// Vapour pressure, density and viscosity are those of water by IAPWS, the losses
// those of [hydraulics.Solve] at Flow. A head below nothing is no head: the water
// boils before it arrives, and the number says by how much the line is too long.
//
// Range: water from 0 °C to 200 °C, at most its boiling point at the site, where the
// head is no more than what the level gives. Errors: bad input as [*units.FieldError].
//
// Source: ANSI/HI 9.6.1 and ANSI/HI 6.1–6.5 (definition of the net positive suction
// head available); the acceleration head is that of [AccelerationHead].
func (s Suction) Head() (*SuctionHead, error) {
	var w Workspace
	out := new(SuctionHead)
	if err := w.Head(&s, out); err != nil {
		return nil, err
	}
	return out, nil
}

// Head is [Suction.Head] in the memory of w, written to out, whose slice it uses again.
func (w *Workspace) Head(s *Suction, out *SuctionHead) error {
	var p problem.List
	problem.Within(&p, "site", s.Site, 1e3, 2e5)
	if !s.Water.Given() {
		p.Add("water", "", "the temperature of the water, such as 60 °F", units.ErrMissing)
	} else if t := s.Water.Celsius(); !(t >= 0 && t <= 200) {
		p.Add("water", s.Water.String(), "0 °C to 200 °C", units.ErrRange)
	}
	problem.Between(&p, "level", s.Level, -maxHeight, maxHeight)
	problem.Within(&p, "flow", s.Flow, minFlow, maxFlow)
	problem.Between(&p, "vacuum", s.Vacuum, 0, 2e5)
	if s.Strainer.Given() {
		s.Strainer.check(&p, "strainer")
	}
	s.Pulsation.check(&p)
	if err := p.Join(); err != nil {
		return err
	}
	T := s.Water.Kelvin()
	pv, err := water.SaturationPressure(T)
	if err != nil {
		return units.At("water", err)
	}
	at, err := water.At(math.Max(float64(s.Site), pv), T)
	if err != nil {
		return units.At("water", err)
	}
	*out = SuctionHead{Fluid: hydraulics.Fluid{Density: units.Density(at.Density), Viscosity: units.DynamicViscosity(at.Viscosity)}, Elements: out.Elements[:0]}
	weight := at.Density * gravity
	head := func(p float64) units.Length { return units.Length(p / weight) }
	out.Atmosphere, out.Vapour = head(float64(s.Site)), -head(pv)
	out.Static, out.Vacuum = s.Level, -head(float64(s.Vacuum))
	if err := w.lay(out.Fluid, s.Line); err != nil {
		return err
	}
	w.run.Loss(s.Flow)
	for i := range s.Line {
		e := w.run.Element(i)
		out.Elements = append(out.Elements, -head(float64(e.Loss)))
		out.Line -= head(float64(e.Loss))
		out.Velocity = max(out.Velocity, e.Velocity)
	}
	if s.Strainer.Given() {
		d, err := s.Strainer.Drop(s.Flow)
		if err != nil {
			return err
		}
		out.Strainer = -head(float64(d))
	}
	if s.Pulsation.Given() {
		a, err := s.Pulsation.Head(s.Flow)
		if err != nil {
			return err
		}
		out.Acceleration = -a
	}
	out.add()
	return nil
}
