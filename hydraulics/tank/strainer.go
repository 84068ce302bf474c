package tank

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Strainer is a basket or screen by its loss when clean and by how much of its
// open area dirt has taken.
type Strainer struct {
	Loss    units.Pressure   // when clean
	Flow    units.VolumeFlow // at which it was measured
	Blocked units.Ratio      // share of the open area that is blocked; 0 is clean
}

// Given reports whether any part of the strainer was set.
func (s Strainer) Given() bool { return s != Strainer{} }

func (s Strainer) check(p *problem.List, path string) {
	if s.Loss >= 0 && s.Loss <= maxPressure && s.Flow >= minFlow && s.Flow <= maxFlow && s.Blocked >= 0 && s.Blocked <= 0.99 {
		return // paths are spelt where something is wrong
	}
	problem.Between(p, path+".loss", s.Loss, 0, maxPressure)
	problem.Within(p, path+".flow", s.Flow, minFlow, maxFlow)
	if !(s.Blocked >= 0 && s.Blocked <= 0.99) {
		p.Add(path+".blocked", s.Blocked.String(), "0 % to 99 %", units.ErrRange)
	}
}

// Drop returns the loss at a flow.
//
//	Δp = Δp₀ (q/q₀)² / (1 − b)²
//
// The water is turbulent in the openings, and the same water through fewer of them
// is faster in proportion: half blocked costs four times, four fifths blocked 25
// times the clean loss. A felt of fine dirt costs more.
//
// Source: the orifice equation; the square law for screens as in R. D. Blevins,
// Applied Fluid Dynamics Handbook, 1984.
func (s Strainer) Drop(q units.VolumeFlow) (units.Pressure, error) {
	var p problem.List
	s.check(&p, "strainer")
	problem.Between(&p, "flow", q, 0, maxFlow)
	if err := p.Join(); err != nil {
		return 0, err
	}
	return s.Loss * units.Pressure(square(float64(q)/float64(s.Flow)/(1-float64(s.Blocked)))), nil
}

// BlockedAt returns the share of the open area that is blocked when the loss at a
// flow has risen to a value: what a gauge on either side says. Zero where the loss is
// that of the clean strainer or less.
//
// Errors: bad input; a strainer without a clean loss.
func (s Strainer) BlockedAt(q units.VolumeFlow, loss units.Pressure) (units.Ratio, error) {
	var p problem.List
	s.Blocked = 0
	s.check(&p, "strainer")
	problem.Within(&p, "strainer.loss", s.Loss, 1e-6, maxPressure)
	problem.Within(&p, "flow", q, minFlow, maxFlow)
	problem.Between(&p, "loss", loss, 0, maxPressure)
	if err := p.Join(); err != nil {
		return 0, err
	}
	clean := float64(s.Loss) * square(float64(q)/float64(s.Flow))
	if float64(loss) <= clean {
		return 0, nil
	}
	return units.Ratio(1 - math.Sqrt(clean/float64(loss))), nil
}

// A Mesh is a square woven wire cloth.
type Mesh struct {
	PerInch float64      // openings to the inch: the mesh number
	Wire    units.Length // diameter
}

func (m Mesh) check(p *problem.List) {
	problem.Number(p, "mesh.per_inch", m.PerInch, 1, 1000)
	pitch := float64(units.Inch) / m.PerInch
	switch {
	case m.Wire == 0:
		p.Add("mesh.wire", "", "the diameter of the wire", units.ErrMissing)
	case !(m.Wire > 0 && float64(m.Wire) < pitch):
		p.Add("mesh.wire", m.Wire.String(), "less than the pitch of the mesh", units.ErrRange)
	}
}

// Opening returns the clear width between the wires: pitch less wire. The largest
// ball that passes has this diameter; a fibre passes lengthwise.
func (m Mesh) Opening() (units.Length, error) {
	var p problem.List
	m.check(&p)
	if err := p.Join(); err != nil {
		return 0, err
	}
	return units.Length(float64(units.Inch)/m.PerInch) - m.Wire, nil
}

// OpenShare returns the share of the cloth that is open: (opening/pitch)².
func (m Mesh) OpenShare() (units.Ratio, error) {
	o, err := m.Opening()
	if err != nil {
		return 0, err
	}
	return units.Ratio(square(float64(o) * m.PerInch / float64(units.Inch))), nil
}

// A StrainerChoice is how a strainer fits the line and the pump behind it.
type StrainerChoice struct {
	OpenToPipe units.Ratio // open area over the cross-section of the pipe
	Opening    units.Length
	ToPassage  units.Ratio // opening over the smallest passage that it guards

	// Interval is the running time until the dirt fills the strainer; zero where the
	// dirt in the water or what the strainer holds is not given.
	Interval units.Duration
}

// ChooseStrainer works out a strainer of a mesh and a screen area.
//
//	open area = screen × share of the cloth that is open
//	interval = what it holds / (dirt in the water × flow)
//
// pipe is the bore of the line, passage the smallest passage behind it: a valve seat
// or a nozzle. dirt is the mass of dirt in a volume of water, and holds the mass the
// strainer takes until it is cleaned; both may be zero, then there is no interval.
func ChooseStrainer(m Mesh, screen units.Area, pipe, passage units.Length, q units.VolumeFlow, dirt units.Density, holds units.Mass) (StrainerChoice, error) {
	var p problem.List
	m.check(&p)
	problem.Within(&p, "screen", screen, 1e-8, 100)
	problem.Within(&p, "pipe", pipe, minBore, maxBore)
	problem.Within(&p, "passage", passage, 1e-7, maxBore)
	problem.Within(&p, "flow", q, minFlow, maxFlow)
	problem.Between(&p, "dirt", dirt, 0, maxDensity)
	problem.Between(&p, "holds", holds, 0, 1e6)
	if err := p.Join(); err != nil {
		return StrainerChoice{}, err
	}
	opening := units.Length(float64(units.Inch)/m.PerInch) - m.Wire
	share := square(float64(opening) * m.PerInch / float64(units.Inch))
	c := StrainerChoice{
		OpenToPipe: units.Ratio(float64(screen) * share / (math.Pi / 4 * square(float64(pipe)))),
		Opening:    opening,
		ToPassage:  units.Ratio(opening / passage),
	}
	if dirt > 0 && holds > 0 {
		t := float64(holds) / (float64(dirt) * float64(q))
		c.Interval = units.Duration(math.Min(t, float64(1e4*365*units.Day)))
	}
	return c, nil
}

// ServiceLoss returns what runs out of a tank when its strainer is opened: nothing
// with a valve on the tank's side, else all that stands above the strainer.
//
// level and strainer are heights above the floor of the tank.
func ServiceLoss(shape Shape, level, strainer units.Length, valve bool) (units.Volume, error) {
	v, err := shape.Volume(level)
	if err != nil {
		return 0, err
	}
	var p problem.List
	problem.Between(&p, "strainer", strainer, -maxHeight, maxHeight)
	if err := p.Join(); err != nil {
		return 0, err
	}
	if valve || strainer >= level {
		return 0, nil
	}
	f := shape.form()
	return v - units.Volume(f.volume(float64(strainer))), nil
}
