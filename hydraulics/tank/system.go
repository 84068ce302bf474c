package tank

import (
	"math"
	"strconv"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Point is a place in a tank: its height above the inside floor, and how far it
// lies aft and to the left of the tank's centre. Aft and Left matter on a slope.
type Point struct {
	Height, Aft, Left units.Length
}

// A Tank of a [System].
type Tank struct {
	Name  string
	Shape Shape

	// Floor is the height of the inside floor above a level that all tanks share.
	// X and Y are where the centre of the tank stands, aft and to the left of a
	// point that all tanks share; they matter on a slope.
	Floor, X, Y units.Length

	// Overflow is the edge over which the water spills: the end of an overflow
	// pipe, or the rim under a lid. Its zero Height is the lid.
	Overflow Point
}

// A Link joins two tanks.
type Link struct {
	Name             string
	From, To         int // indices of tanks
	FromPort, ToPort Point
	Opening
	Shut   bool
	OneWay bool // a check valve: water runs From → To only
}

// An Outlet lets a tank run out by its own weight: a dump valve, a leak.
type Outlet struct {
	Name string
	Tank int
	Port Point // the head is counted from here; a pipe that falls beyond it does not add to it
	Opening
	Shut bool
}

// A Draw takes a fixed flow, as a pump does, while its port is under water; after
// that what still runs to the port.
type Draw struct {
	Name string
	Tank int
	Port Point
	Flow units.VolumeFlow
}

// A Fill brings a fixed flow.
type Fill struct {
	Name  string
	Tank  int
	Flow  units.VolumeFlow
	Parts []units.Ratio // share of each of the system's Kinds

	// Stop is the level, at the centre of the tank, that a float valve holds;
	// zero: there is no float valve.
	Stop units.Length
}

// A System is a set of tanks and what runs between them, at one setting of its
// valves and pumps.
//
// Water runs from a tank through a link or outlet while it stands above the port.
// A link's sill is the higher of its two ports: the head that drives it is the
// height of the upper surface over the other surface, or over the sill where that
// is higher. So a crossover above the water line passes nothing, and a tank is not
// emptied below its own port. The surface is level everywhere; inertia is left out
// (levels do not swing), and the tanks breathe freely: see [VentPressure].
//
// On a slope the surface is inclined to the floor. Ports, sills and edges count at
// their own places; the volume is that of the level at the tank's centre, which is
// exact for upright forms until the surface meets floor or lid, and an estimate
// otherwise.
type System struct {
	Fluid   hydraulics.Fluid
	Kinds   []string // of water that are followed: "recovered", "chemical"; may be empty
	Tanks   []Tank
	Links   []Link
	Outlets []Outlet
	Draws   []Draw
	Fills   []Fill

	NoseUp   units.Angle // pitch: front higher than rear
	LeftDown units.Angle // roll
}

// A Content is what one tank holds: its volume, and how much of that is water of
// each of the system's kinds. Kinds may overlap or leave a rest.
type Content struct {
	Volume units.Volume
	Parts  []units.Volume
}

const (
	maxTanks = 32
	maxPaths = 200
	maxKinds = 8
)

// Validate reports everything that Run would refuse in the system itself, in field
// order.
func (s *System) Validate() error {
	var p problem.List
	checkFluid(&p, s.Fluid)
	if len(s.Kinds) > maxKinds {
		p.Add("kinds", strconv.Itoa(len(s.Kinds)), "at most "+strconv.Itoa(maxKinds), units.ErrRange)
	}
	if len(s.Tanks) == 0 {
		p.Add("tanks", "", "at least one tank", units.ErrMissing)
	} else if len(s.Tanks) > maxTanks {
		p.Add("tanks", strconv.Itoa(len(s.Tanks)), "at most "+strconv.Itoa(maxTanks), units.ErrRange)
	}
	for i := range s.Tanks {
		t := &s.Tanks[i]
		var q problem.List
		q.Take("shape", t.Shape.Validate())
		problem.Between(&q, "floor", t.Floor, -maxHeight, maxHeight)
		problem.Between(&q, "x", t.X, -maxHeight, maxHeight)
		problem.Between(&q, "y", t.Y, -maxHeight, maxHeight)
		if q == nil {
			s.checkPoint(&q, "overflow", i, t.Overflow)
		}
		p.Take(problem.Element("tanks", t.Name, i), q.Join())
	}
	if n := len(s.Links) + len(s.Outlets) + len(s.Draws) + len(s.Fills); n > maxPaths {
		p.Add("links", strconv.Itoa(n), "at most "+strconv.Itoa(maxPaths)+" links, outlets, draws and fills together", units.ErrRange)
	}
	for i := range s.Links {
		l := &s.Links[i]
		var q problem.List
		s.checkTank(&q, "from", l.From)
		s.checkTank(&q, "to", l.To)
		if l.From == l.To {
			q.Add("to", strconv.Itoa(l.To), "another tank than from", units.ErrConflict)
		}
		s.checkPoint(&q, "fromPort", l.From, l.FromPort)
		s.checkPoint(&q, "toPort", l.To, l.ToPort)
		q.Take("opening", l.Opening.Validate())
		p.Take(problem.Element("links", l.Name, i), q.Join())
	}
	for i := range s.Outlets {
		o := &s.Outlets[i]
		var q problem.List
		s.checkTank(&q, "tank", o.Tank)
		s.checkPoint(&q, "port", o.Tank, o.Port)
		q.Take("opening", o.Opening.Validate())
		p.Take(problem.Element("outlets", o.Name, i), q.Join())
	}
	for i := range s.Draws {
		d := &s.Draws[i]
		var q problem.List
		s.checkTank(&q, "tank", d.Tank)
		s.checkPoint(&q, "port", d.Tank, d.Port)
		problem.Between(&q, "flow", d.Flow, 0, maxFlow)
		p.Take(problem.Element("draws", d.Name, i), q.Join())
	}
	for i := range s.Fills {
		f := &s.Fills[i]
		var q problem.List
		s.checkTank(&q, "tank", f.Tank)
		problem.Between(&q, "flow", f.Flow, 0, maxFlow)
		if f.Parts != nil && len(f.Parts) != len(s.Kinds) {
			q.Add("parts", strconv.Itoa(len(f.Parts)), "one share for each of the "+strconv.Itoa(len(s.Kinds))+" kinds, or nothing", units.ErrConflict)
		}
		for _, r := range f.Parts {
			problem.Between(&q, "parts", r, 0, 1)
		}
		s.checkPoint(&q, "stop", f.Tank, Point{Height: f.Stop})
		p.Take(problem.Element("fills", f.Name, i), q.Join())
	}
	problem.Between(&p, "noseUp", s.NoseUp, -float64(maxTilt), float64(maxTilt))
	problem.Between(&p, "leftDown", s.LeftDown, -float64(maxTilt), float64(maxTilt))
	return p.Join()
}

func (s *System) checkTank(p *problem.List, path string, i int) {
	if i < 0 || i >= len(s.Tanks) {
		p.Add(path, strconv.Itoa(i), "the index of a tank, 0 to "+strconv.Itoa(len(s.Tanks)-1), units.ErrRange)
	}
}

// checkPoint wants a point inside the height of a tank that is sound itself.
func (s *System) checkPoint(p *problem.List, path string, tank int, pt Point) {
	if tank < 0 || tank >= len(s.Tanks) {
		return
	}
	top, err := s.Tanks[tank].Shape.Top()
	if err != nil {
		return
	}
	problem.Between(p, path+".height", pt.Height, 0, float64(top))
	problem.Between(p, path+".aft", pt.Aft, -maxHeight, maxHeight)
	problem.Between(p, path+".left", pt.Left, -maxHeight, maxHeight)
}

func (s *System) checkContents(start []Content) error {
	var p problem.List
	if len(start) != len(s.Tanks) {
		p.Add("start", strconv.Itoa(len(start)), "one content for each of the "+strconv.Itoa(len(s.Tanks))+" tanks", units.ErrConflict)
		return p.Join()
	}
	for i := range start {
		c := &start[i]
		var q problem.List
		f := s.Tanks[i].Shape.form()
		problem.Between(&q, "volume", c.Volume, 0, f.full*(1+1e-9))
		if c.Parts != nil && len(c.Parts) != len(s.Kinds) {
			q.Add("parts", strconv.Itoa(len(c.Parts)), "one volume for each of the "+strconv.Itoa(len(s.Kinds))+" kinds, or nothing", units.ErrConflict)
		}
		for _, v := range c.Parts {
			problem.Between(&q, "parts", v, 0, float64(c.Volume)+1e-8*f.full)
		}
		p.Take(problem.Element("start", s.Tanks[i].Name, i), q.Join())
	}
	return p.Join()
}

// up is the unit vector that points away from the earth, in the axes of the
// trailer: aft, left, up.
func (s *System) up() (x, y, z float64) {
	sp, cp := math.Sincos(float64(s.NoseUp))
	sr, cr := math.Sincos(float64(s.LeftDown))
	return -sp, -cp * sr, cp * cr
}

// Levels returns the level of each tank at its centre, above its inside floor.
func (s *System) Levels(contents []Content) ([]units.Length, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if err := s.checkContents(contents); err != nil {
		return nil, err
	}
	out := make([]units.Length, len(s.Tanks))
	for i := range s.Tanks {
		f := s.Tanks[i].Shape.form()
		out[i] = units.Length(f.level(float64(contents[i].Volume)))
	}
	return out, nil
}

// Heights returns how high the surface of each tank stands, along the plumb line,
// above that of an empty first tank: equal heights are tanks at rest.
func (s *System) Heights(contents []Content) ([]units.Length, error) {
	levels, err := s.Levels(contents)
	if err != nil {
		return nil, err
	}
	e := s.floors()
	_, _, uz := s.up()
	out := make([]units.Length, len(levels))
	for i, h := range levels {
		out[i] = units.Length(e[i] - e[0] + float64(h)*uz)
	}
	return out, nil
}

// floors returns how high the floor of each tank is at its centre.
func (s *System) floors() []float64 {
	ux, uy, uz := s.up()
	e := make([]float64, len(s.Tanks))
	for i := range s.Tanks {
		t := &s.Tanks[i]
		e[i] = float64(t.X)*ux + float64(t.Y)*uy + float64(t.Floor)*uz
	}
	return e
}
