package vacuum

import (
	"math"

	"gonum.org/v1/gonum/interp"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Shape is what is assumed between two points, the ends, where the sheet gives
// no others. It is named by the caller and never taken silently.
type Shape uint8

// Shapes of a curve from its shut end to its open end.
const (
	_        Shape = iota
	Straight       // y = y₀ (1 − q/q₀)
	Parabola       // y = y₀ [1 − (q/q₀)²]: fuller in the middle
)

var shapeNames = [...]string{"no shape", "straight", "parabola"}

// String returns the shape as a word.
func (s Shape) String() string {
	if int(s) < len(shapeNames) {
		return shapeNames[s]
	}
	return "unknown shape"
}

// A curve falls from its highest value at no flow to zero at its greatest flow.
type curve struct {
	shut, open float64 // y(0) and the flow where y is zero
	perOpen    float64 // 1/open
	shape      Shape   // between two points
	fit        interp.FritschButland
	x, y       []float64 // the points
}

// point adds a point to a curve that is about to be drawn.
func (c *curve) point(x, y float64) { c.x, c.y = append(c.x, x), append(c.y, y) }

// draw draws a curve through its points, whose flow rises from zero and whose value
// falls to zero. flowName and valueName are the fields of a point.
func (c *curve) draw(shape Shape, path, flowName, valueName string, flow, value func(float64) string) error {
	x, y := c.x, c.y
	var p problem.List
	if len(x) < 2 {
		p.Add(path, "", "two points or more, from no flow to no "+valueName, units.ErrMissing)
		return p.Join()
	}
	for i := range x {
		switch {
		case !finite(x[i]) || i == 0 && x[i] != 0:
			p.Add(problem.At(path, i)+"."+flowName, flow(x[i]), "0 at the first point", units.ErrRange)
		case i > 0 && !(x[i] > x[i-1]*(1+1e-9)):
			p.Add(problem.At(path, i)+"."+flowName, flow(x[i]), "more than at the point before, "+flow(x[i-1]), units.ErrConflict)
		}
		last := i == len(x)-1
		switch {
		case !finite(y[i]) || last && y[i] != 0:
			p.Add(problem.At(path, i)+"."+valueName, value(y[i]), "0 at the last point", units.ErrRange)
		case i > 0 && !(y[i] < y[i-1]*(1-1e-9)):
			p.Add(problem.At(path, i)+"."+valueName, value(y[i]), "less than at the point before, "+value(y[i-1]), units.ErrConflict)
		}
	}
	switch {
	case len(x) == 2 && shape != Straight && shape != Parabola:
		p.Add("between", "", "straight or parabola, for a curve of two points", units.ErrMissing)
	case len(x) > 2 && shape != 0:
		p.Add("between", shape.String(), "nothing; three points and more are joined by monotone cubics", units.ErrConflict)
	}
	if err := p.Join(); err != nil {
		return err
	}
	c.shut, c.open, c.shape = y[0], x[len(x)-1], shape
	c.perOpen = 1 / c.open
	if len(x) > 2 {
		return c.fit.Fit(x, y)
	}
	return nil
}

// at returns the value at a flow from zero to the open end; beyond it the line
// from the shut to the open end goes on below zero, so that a solver that
// overshoots is turned back.
func (c *curve) at(q float64) float64 {
	switch {
	case q <= 0:
		return c.shut
	case q >= c.open:
		return c.shut * (1 - q/c.open)
	case c.shape == Straight:
		return c.shut * (1 - q*c.perOpen)
	case c.shape == Parabola:
		return c.shut * (1 - square(q*c.perOpen))
	}
	return math.Max(c.fit.Predict(q), 0)
}

// slope returns the derivative of at.
func (c *curve) slope(q float64) float64 {
	switch {
	case q <= 0:
		q = 0
	case q >= c.open:
		return -c.shut / c.open
	}
	switch c.shape {
	case Straight:
		return -c.shut / c.open
	case Parabola:
		return -2 * c.shut * q / (c.open * c.open)
	}
	return c.fit.PredictDerivative(q)
}
