package vacuum

import (
	"math"

	"gonum.org/v1/gonum/interp"
)

// Loss coefficients of screens with square edges by their open share.
//
// Source: R. D. Blevins, Applied Fluid Dynamics Handbook, Van Nostrand Reinhold,
// 1984, table of square-edged screens, as reproduced in the open-source library
// fluids; from an open share of 0.05 up.
var (
	squareOpen = []float64{0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 1}
	squareK    = []float64{1000, 250, 85, 52, 30, 17, 11, 7.7, 5.5, 3.8, 2.8, 2, 1.5, 1.1, 0.78, 0.53, 0.35, 0.08, 0}
)

// Factors on (1 − α²)/α² for round wire by the Reynolds number of the wire.
//
// Source: as above, table of round-wire screens.
var (
	wireRe     = []float64{20, 30, 40, 60, 80, 100, 200, 400}
	wireFactor = []float64{1.3, 1.1, 0.95, 0.83, 0.75, 0.7, 0.6, 0.52}
)

// ScreenCoefficient returns the loss of a perforated plate or a screen of square
// bars, in velocity heads of the flow in front of it. Open is the open share of its
// area.
//
// Range: 0.05 to 1, by straight lines between the points of the table; outside it
// NaN. Blinding a screen from half to a quarter open costs eight times the loss.
//
// Source: R. D. Blevins, Applied Fluid Dynamics Handbook, 1984.
//
// Special cases: NaN if the argument is NaN.
func ScreenCoefficient(open float64) float64 {
	if !(open >= squareOpen[0] && open <= 1) {
		return math.NaN()
	}
	return linear(squareOpen, squareK, open)
}

// WireScreenCoefficient returns the loss of a screen of round wire, in velocity
// heads of the flow in front of it.
//
//	K = β(Re) (1 − α²)/α²
//
// α is the open share of its area, Re the Reynolds number of the wire at the speed
// between the wires, β 1.3 at Re = 20, 0.7 at 100 and 0.52 at 400.
//
// Range: α from 0.05 to 1, Re from 20 to 400, by straight lines in Re; outside it
// NaN.
//
// Source: R. D. Blevins, Applied Fluid Dynamics Handbook, 1984.
//
// Special cases: NaN if an argument is NaN.
func WireScreenCoefficient(open, Re float64) float64 {
	if !(open >= squareOpen[0] && open <= 1 && Re >= wireRe[0] && Re <= wireRe[len(wireRe)-1]) {
		return math.NaN()
	}
	return linear(wireRe, wireFactor, Re) * (1 - open*open) / (open * open)
}

// linear joins the points of a table by straight lines.
func linear(x, y []float64, at float64) float64 {
	var l interp.PiecewiseLinear
	if err := l.Fit(x, y); err != nil {
		return math.NaN()
	}
	return l.Predict(at)
}
