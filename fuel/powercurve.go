package fuel

import (
	"errors"
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/interp"

	"example.com/washrig/units"
)

// A PowerPoint is one point of a full-throttle curve.
type PowerPoint struct {
	Speed units.RotationalSpeed
	Power units.Power
}

// A PowerCurve is the power of an engine at full throttle against its speed, as
// its data sheet draws it. Make one with [NewPowerCurve]; it does not change and
// is safe to share.
type PowerCurve struct {
	points []PowerPoint
	curve  interp.FritschButland // power in W over speed in rad/s
}

// NewPowerCurve draws a curve through points by the monotone cubics of Fritsch
// and Butland: it passes through every point, and between two of them it never
// leaves their power, so that no peak appears that the sheet does not have.
//
// Errors: a *[units.FieldError] for fewer than two points, speeds that do not
// rise from point to point (ErrConflict), or a speed or power that is not above
// zero.
//
// Source: F. N. Fritsch and J. Butland, "A method for constructing local monotone
// piecewise cubic interpolants", SIAM J. Sci. Stat. Comput. 5(2), 1984.
func NewPowerCurve(points []PowerPoint) (*PowerCurve, error) {
	var errs []error
	if len(points) < 2 {
		errs = append(errs, missing("points", "two or more"))
	}
	x, y := make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		at := "points[" + strconv.Itoa(i) + "]"
		x[i], y[i] = float64(p.Speed), float64(p.Power)
		errs = append(errs,
			units.At(at, checkPositiveSpeed("speed", p.Speed)),
			units.At(at, checkPositivePower("power", p.Power)))
		if i > 0 && !(x[i] > x[i-1]*(1+1e-9)) {
			errs = append(errs, &units.FieldError{
				Path:  at + ".speed",
				Value: p.Speed.Text(units.RPM, 1),
				Want:  "more than the point before, " + points[i-1].Speed.Text(units.RPM, 1),
				Err:   units.ErrConflict,
			})
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	c := &PowerCurve{points: slices.Clone(points)}
	if err := c.curve.Fit(x, y); err != nil {
		return nil, err
	}
	return c, nil
}

// Points returns the points the curve was drawn through; the slice is the
// caller's own.
func (c *PowerCurve) Points() []PowerPoint { return slices.Clone(c.points) }

// Lowest returns the lower end of the curve.
func (c *PowerCurve) Lowest() units.RotationalSpeed { return c.points[0].Speed }

// Highest returns the upper end of the curve.
func (c *PowerCurve) Highest() units.RotationalSpeed { return c.points[len(c.points)-1].Speed }

// PowerAt returns the power at full throttle and a speed.
//
// Error: a *[units.FieldError] for a speed outside the points; a curve says
// nothing there.
func (c *PowerCurve) PowerAt(n units.RotationalSpeed) (units.Power, error) {
	if c == nil || len(c.points) == 0 {
		return 0, missing("curve", "a curve of two or more points")
	}
	if !within(float64(n), float64(c.Lowest()), float64(c.Highest())) {
		return 0, outside("speed", n.Text(units.RPM, 1), c.Lowest().Text(units.RPM, 0)+" to "+c.Highest().Text(units.RPM, 0))
	}
	return units.Power(c.curve.Predict(float64(n))), nil
}

// TorqueAt returns the torque at full throttle and a speed, power over speed.
//
// Error: as for [PowerCurve.PowerAt].
func (c *PowerCurve) TorqueAt(n units.RotationalSpeed) (units.Moment, error) {
	p, err := c.PowerAt(n)
	if err != nil {
		return 0, err
	}
	return units.Moment(float64(p) / float64(n)), nil
}

// A Governor holds an engine's speed.
type Governor struct {
	NoLoad units.RotationalSpeed // with nothing on the shaft; required
	Droop  units.Ratio           // fall from no load to full load, as a share of the speed at full load; 0 holds speed exactly
}

// Rated returns the speed at full load, where the governor has opened the
// throttle all the way:
//
//	n_r = n_0/(1 + droop)
//
// Errors: a *[units.FieldError] for a field of g.
//
// Source: ISO 8528-1 and -5 for the definition of droop, after the rated speed.
func (g Governor) Rated() (units.RotationalSpeed, error) {
	if err := g.Validate(); err != nil {
		return 0, err
	}
	return g.rated(), nil
}

func (g Governor) rated() units.RotationalSpeed {
	return units.RotationalSpeed(float64(g.NoLoad) / (1 + float64(g.Droop)))
}

// Validate returns every problem of g, joined in field order.
func (g Governor) Validate() error {
	err := checkPositiveSpeed("noLoad", g.NoLoad)
	if !within(float64(g.Droop), 0, 0.25) {
		err = errors.Join(err, outside("droop", number(float64(g.Droop)), "0 to 0.25"))
	}
	return err
}

// checkPositiveSpeed wants a speed some engine turns at.
func checkPositiveSpeed(path string, n units.RotationalSpeed) error {
	switch {
	case n == 0:
		return missing(path, "more than 0 rpm")
	case within(n.In(units.RPM), 1, 50_000):
		return nil
	}
	return outside(path, number(math.Round(n.In(units.RPM)*1e3)/1e3)+" rpm", "1 to 50,000 rpm")
}
