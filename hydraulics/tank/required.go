package tank

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/interp"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A RequiredPoint is the head a pump needs at its inlet at one speed.
type RequiredPoint struct {
	Speed units.RotationalSpeed
	Head  units.Length
}

// A RequiredHead is what a pump's sheet says about the head it needs, by speed in
// rising order. Sheets of plunger pumps often say nothing: then the head that is
// available is itself the break-even, the most that the pump may need.
type RequiredHead []RequiredPoint

// At returns the head needed at a speed: between the points by monotone cubic
// interpolation (F. N. Fritsch and J. Butland), below the first point that of the
// first, which the pump needs less than.
//
// Errors: no points ([units.ErrMissing]); points that do not rise in speed, or whose
// head falls; a speed above the last point.
func (r RequiredHead) At(speed units.RotationalSpeed) (units.Length, error) {
	var p problem.List
	if len(r) == 0 {
		p.Add("requiredHead", "", "the head the pump needs, from its maker", units.ErrMissing)
		return 0, p.Join()
	}
	xs, ys := make([]float64, len(r)), make([]float64, len(r))
	for i := range r {
		at := problem.Element("requiredHead", "", i)
		problem.Within(&p, at+".speed", r[i].Speed, 1e-3, 1e4)
		problem.Between(&p, at+".head", r[i].Head, 0, 100)
		if i > 0 && !(r[i].Speed > r[i-1].Speed) {
			p.Add(at+".speed", r[i].Speed.String(), "more than that of the point before", units.ErrConflict)
		}
		if i > 0 && !(r[i].Head >= r[i-1].Head) {
			p.Add(at+".head", r[i].Head.String(), "at least that of the point before", units.ErrConflict)
		}
		xs[i], ys[i] = float64(r[i].Speed), float64(r[i].Head)
	}
	last := r[len(r)-1].Speed
	if !(speed > 0 && speed <= last) {
		p.Add("speed", speed.String(), "more than 0, at most that of the last point, "+last.String(), units.ErrRange)
	}
	if err := p.Join(); err != nil {
		return 0, err
	}
	if float64(speed) <= xs[0] || len(r) == 1 {
		return r[0].Head, nil
	}
	if len(r) == 2 { // a straight line
		t := (float64(speed) - xs[0]) / (xs[1] - xs[0])
		return units.Length(ys[0] + t*(ys[1]-ys[0])), nil
	}
	var f interp.FritschButland
	if err := f.Fit(xs, ys); err != nil {
		return 0, err
	}
	return units.Length(f.Predict(float64(speed))), nil
}

// A CureKind is one thing that can be done about a suction line.
type CureKind uint8

const (
	CleanStrainer  CureKind = iota + 1
	WiderLine               // the bore of hose, fittings and pulsation
	HalfTheLine             // hose of half the length
	FitStabiliser           // at the pump
	RaiseTank               // or hold the level higher
	CoolWater               // or do without the recovered water
	OpenVent                // no vacuum in the tank
	StrainerBypass          // a strainer without loss: a much larger one
)

var cureNames = [...]string{"no cure", "clean the strainer", "wider line", "half the line", "stabiliser at the pump", "higher level", "colder water", "vent that breathes freely", "strainer without loss"}

// String returns the cure in words.
func (k CureKind) String() string {
	if int(k) < len(cureNames) {
		return cureNames[k]
	}
	return "unknown cure"
}

// A Cure is what one change alone gains.
type Cure struct {
	Kind CureKind
	Gain units.Length
}

// CureOptions are the sizes of the changes that [Suction.Cures] tries; one that is
// zero is not tried.
type CureOptions struct {
	Bore   units.Length           // of a wider line
	Moved  units.Length           // length that moves behind a stabiliser
	Raise  units.Length           // of the level
	Cooler units.TemperatureDelta // of the water
}

// Cures returns what each change alone adds to the head that is available, the
// greatest gain first; changes that gain nothing are left out. Each is computed by
// [Suction.Head] anew, so gains that depend on one another do not add up.
func (s Suction) Cures(o CureOptions) ([]Cure, error) {
	base, err := s.Head()
	if err != nil {
		return nil, err
	}
	var p problem.List
	problem.Between(&p, "bore", o.Bore, 0, maxBore)
	problem.Between(&p, "moved", o.Moved, 0, maxLength)
	problem.Between(&p, "raise", o.Raise, 0, maxHeight)
	problem.Between(&p, "cooler", o.Cooler, 0, 200)
	if err := p.Join(); err != nil {
		return nil, err
	}
	var out []Cure
	try := func(k CureKind, c Suction) error {
		h, err := c.Head()
		if err != nil {
			return err
		}
		if gain := h.Available - base.Available; gain > 0 {
			out = append(out, Cure{k, gain})
		}
		return nil
	}
	// remake copies the line with every pipe and fitting changed.
	remake := func(pipe func(hydraulics.Pipe) hydraulics.Pipe, fit func(hydraulics.Fitting) hydraulics.Fitting) []hydraulics.Element {
		line := slices.Clone(s.Line)
		for i, e := range line {
			switch e := e.(type) {
			case hydraulics.Pipe:
				line[i] = pipe(e)
			case hydraulics.Fitting:
				line[i] = fit(e)
			case *hydraulics.Pipe:
				line[i] = pipe(*e)
			case *hydraulics.Fitting:
				line[i] = fit(*e)
			}
		}
		return line
	}
	same := func(f hydraulics.Fitting) hydraulics.Fitting { return f }
	if s.Strainer.Blocked > 0 {
		c := s
		c.Strainer.Blocked = 0
		err = try(CleanStrainer, c)
	}
	if err == nil && s.Strainer.Loss > 0 {
		c := s
		c.Strainer.Loss = 0
		err = try(StrainerBypass, c)
	}
	if err == nil && o.Bore > 0 {
		c := s
		c.Line = remake(func(p hydraulics.Pipe) hydraulics.Pipe { p.Bore = max(p.Bore, o.Bore); return p },
			func(f hydraulics.Fitting) hydraulics.Fitting { f.Bore = max(f.Bore, o.Bore); return f })
		c.Pulsation.Bore = max(c.Pulsation.Bore, o.Bore)
		if !s.Pulsation.Given() {
			c.Pulsation = s.Pulsation
		}
		err = try(WiderLine, c)
	}
	if err == nil {
		c := s
		c.Line = remake(func(p hydraulics.Pipe) hydraulics.Pipe { p.Length /= 2; return p }, same)
		c.Pulsation.Length /= 2
		if c.Pulsation.Line != StiffPipe && c.Pulsation.Length != 0 {
			c.Pulsation.Moved = min(c.Pulsation.Moved, c.Pulsation.Length)
		}
		err = try(HalfTheLine, c)
	}
	if err == nil && o.Moved > 0 && s.Pulsation.Given() && s.Pulsation.Line != Stabilised {
		c := s
		c.Pulsation.Line, c.Pulsation.Moved = Stabilised, o.Moved
		if l := c.Pulsation.Length; l != 0 {
			c.Pulsation.Moved = min(o.Moved, l)
		}
		err = try(FitStabiliser, c)
	}
	if err == nil && o.Raise > 0 {
		c := s
		c.Level += o.Raise
		err = try(RaiseTank, c)
	}
	if err == nil && o.Cooler > 0 {
		c := s
		c.Water = s.Water.Add(-o.Cooler)
		if freezing := units.Celsius(0); c.Water.Kelvin() < freezing.Kelvin() {
			c.Water = freezing
		}
		err = try(CoolWater, c)
	}
	if err == nil && s.Vacuum > 0 {
		c := s
		c.Vacuum = 0
		err = try(OpenVent, c)
	}
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(out, func(a, b Cure) int {
		return cmp.Or(cmp.Compare(b.Gain, a.Gain), cmp.Compare(a.Kind, b.Kind))
	})
	return out, nil
}
