package thermal

import (
	"math"

	"example.com/washrig/units"
)

// An InductionFan is a fan on an induction motor, as on a burner fed with
// alternating current.
type InductionFan struct {
	// Slip at rated load, voltage and frequency: 1 − speed/synchronous speed.
	// 1725 rpm on 60 Hz with four poles is 0.0417.
	Slip units.Ratio
	// Breakdown torque over rated torque, usually 2 to 3.
	Breakdown units.Ratio
}

// FanSpeed returns the speed of the fan over its rated speed when voltage and
// frequency are the given shares of rated. Air moves in proportion to the speed
// (fan law), so it is the factor of [CleanFiring].
//
// The motor turns where its torque meets that of the fan, which goes with the
// square of the speed n:
//
//	b (V/f)² · 2/(s/sm + sm/s) = (n/n1)²,  n = f(1 − s)
//
// s is the slip, sm = s1 (b + √(b² − 1))/f that at breakdown, b the breakdown
// torque, V and f shares of rated, 1 marking the rated point. The running point is
// the one of smallest slip; a motor that cannot pass breakdown sags to a larger slip
// there, and its current with it.
//
// Range: slip 0.005 to 0.3, breakdown 1.05 to 6, voltage and frequency 0 to 1.5 of
// rated; below a thousandth the fan stands still.
//
// Source: Kloss's formula for the torque of an induction machine (M. Kloss, 1920s,
// any text on electrical machines), stator resistance neglected; fan law.
func (m InductionFan) FanSpeed(voltage, frequency units.Ratio) (units.Ratio, error) {
	if err := all(
		inside("slip", m.Slip, 0.005, 0.3), inside("breakdown", m.Breakdown, 1.05, 6),
		inside("voltage", voltage, 0, 1.5), inside("frequency", frequency, 0, 1.5),
	); err != nil {
		return 0, err
	}
	s1, b := float64(m.Slip), float64(m.Breakdown)
	V, f := float64(voltage), float64(frequency)
	if V < 1e-3 || f < 1e-3 {
		return 0, nil
	}
	// Torque of the motor is zero without slip and that of the fan is zero at
	// standstill, so the two cross between; the first crossing is the answer.
	sm := s1 * (b + math.Sqrt(b*b-1)) / f
	excess := func(s float64) float64 {
		n := f * (1 - s) / (1 - s1)
		return b*(V/f)*(V/f)*2/(s/sm+sm/s) - n*n
	}
	s, err := firstCrossing(excess, 0, 1)
	if err != nil {
		return 0, units.At("voltage", err)
	}
	return units.Ratio(f * (1 - s) / (1 - s1)), nil
}

// A DCFan is a fan on a permanent-magnet motor, as on a burner fed from a battery.
type DCFan struct {
	// Drop is the share of the rated voltage that the windings take at rated
	// load, usually 0.1 to 0.3.
	Drop units.Ratio
}

// FanSpeed returns the speed of the fan over its rated speed when the voltage is
// the given share of rated.
//
//	V = (1 − r) n + r n²
//
// r is the drop and n the speed: the first term is the voltage induced, the second
// the drop by the current, which goes with the torque n².
//
// Range: drop 0 to 0.5, voltage 0 to 1.5 of rated.
//
// Source: equation of the permanent-magnet motor at constant flux; fan law.
func (m DCFan) FanSpeed(voltage units.Ratio) (units.Ratio, error) {
	if err := all(inside("drop", m.Drop, 0, 0.5), inside("voltage", voltage, 0, 1.5)); err != nil {
		return 0, err
	}
	r, V := float64(m.Drop), float64(voltage)
	// n = [−(1 − r) + √((1 − r)² + 4rV)]/2r, written without cancellation.
	return units.Ratio(2 * V / ((1 - r) + math.Sqrt((1-r)*(1-r)+4*r*V))), nil
}
