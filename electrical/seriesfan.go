package electrical

import (
	"math"

	"example.com/washrig/units"
)

// A SeriesFanState is how a fan on a series (universal) motor runs, over its
// rated point.
type SeriesFanState struct {
	Speed units.Ratio
	Power units.Ratio
}

// SeriesFan returns how a fan on a series-wound motor, such as a vacuum motor
// with brushes, runs at a share of its rated voltage, of either kind of current:
//
//	T ∝ I²,   V ∝ I·n,   T_fan ∝ n²   →   n ∝ √V,   P = V·I ∝ V^1.5
//
// The flux follows the current, and the current the speed of the fan, so that
// the voltage goes with the square of the speed. Resistance, reactance and
// saturation are neglected; they take the speed nearer to V itself where the
// iron is saturated. The frequency does not matter.
//
// Range: voltage from 0 to 2 times the rated one.
//
// Errors: units.ErrRange, path "voltage".
//
// Source: torque and induced voltage of the series motor with unsaturated flux
// (any text on electrical machines); fan laws.
func SeriesFan(voltage units.Ratio) (SeriesFanState, error) {
	var p problems
	p.within("voltage", float64(voltage), 0, 2, ratio("times the rated voltage"))
	if err := p.err(); err != nil {
		return SeriesFanState{}, err
	}
	n := math.Sqrt(float64(voltage))
	return SeriesFanState{Speed: units.Ratio(n), Power: units.Ratio(n * n * n)}, nil
}
