package water

import (
	"math"

	"example.com/washrig/internal/root"
)

// A Mixture is the state of water of given pressure and enthalpy.
type Mixture struct {
	Phase       Phase
	Temperature float64 // K
	Quality     float64 // mass of steam over the whole: 0 in liquid, 1 in steam
	Density     float64 // of the mixture, kg/m³
}

// Flash returns what water of enthalpy h (J/kg) becomes at the absolute pressure
// p (Pa): liquid, steam, or both at the boiling point with the quality
//
//	x = (h − h′)/(h″ − h′)
//
// where h′ and h″ are the enthalpies of saturated liquid and steam.
//
// Range: 1 Pa ≤ p ≤ 50 MPa, h from liquid at 0 °C (below 611.2 Pa: steam at
// 0 °C) to the enthalpy at 350 °C; outside a [*units.FieldError] that names the
// enthalpies at this pressure.
//
// Source: IAPWS R7-97(2012); single-phase temperatures by Newton's method,
// started in liquid from the backward equation T(p, h), to 1e-10 K.
func Flash(p, h float64) (Mixture, error) {
	if err := checkPressure(p); err != nil {
		return Mixture{}, err
	}
	return solve(p, h, "specific enthalpy", "J/kg", &byEnthalpy)
}

// TemperatureFromEnthalpy returns the temperature in K of water of enthalpy h
// (J/kg) at the absolute pressure p (Pa), the boiling point where it is two
// phases. Range and source as [Flash].
func TemperatureFromEnthalpy(p, h float64) (float64, error) {
	m, err := Flash(p, h)
	return m.Temperature, err
}

// TemperatureFromEntropy returns the temperature in K of water of entropy s
// (J/(kg·K)) at the absolute pressure p (Pa), the boiling point where it is two
// phases: the end of a compression or expansion without loss.
//
// Range: as [Flash], with entropies in place of enthalpies.
//
// Source: IAPWS R7-97(2012); single-phase temperatures by Newton's method,
// started in liquid from the backward equation T(p, s), to 1e-10 K.
func TemperatureFromEntropy(p, s float64) (float64, error) {
	if err := checkPressure(p); err != nil {
		return 0, err
	}
	m, err := solve(p, s, "specific entropy", "J/(kg·K)", &byEntropy)
	return m.Temperature, err
}

// A coordinate is a property that rises with temperature at constant pressure
// and is given in its place.
type coordinate struct {
	// value returns the property and its derivative by T.
	value func(p, T float64, liquid bool) (x, dx float64)
	// guess returns a temperature of liquid within 25 mK.
	guess func(p, x float64) float64
}

var byEnthalpy = coordinate{
	value: func(p, T float64, liquid bool) (h, cp float64) {
		if liquid {
			_, h, cp = region1(p, T)
		} else {
			_, h, cp = region2(p, T)
		}
		return h, cp
	},
	guess: backwardFromEnthalpy,
}

var byEntropy = coordinate{
	value: func(p, T float64, liquid bool) (s, ds float64) {
		var tau float64
		var d gibbs
		if liquid {
			_, tau, d = gibbs1(p, T)
		} else {
			_, tau, d = gibbs2(p, T)
		}
		return gasConstant * (tau*d.gt - d.g), -gasConstant * tau * tau * d.gtt / T
	},
	guess: backwardFromEntropy,
}

// solve finds the state at p where the coordinate has the value x.
func solve(p, x float64, quantity, unit string, c *coordinate) (Mixture, error) {
	lo, hi := MinTemperature, MaxTemperature
	low, _ := c.value(p, lo, p >= minSaturation)
	high, _ := c.value(p, hi, p >= maxSaturation)
	slack := 1e-9 * (high - low)
	if err := checkRange(quantity, x, low, high, slack, unit); err != nil {
		return Mixture{}, err
	}

	liquid := true
	switch {
	case p >= maxSaturation:
	case p < minSaturation:
		liquid = false
	default:
		T := saturationTemperature(p)
		xf, _ := c.value(p, T, true)
		xg, _ := c.value(p, T, false)
		if x >= xf && x <= xg {
			q := (x - xf) / (xg - xf)
			vf, _, _ := region1(p, T)
			vg, _, _ := region2(p, T)
			return Mixture{TwoPhase, T, q, 1 / (vf + q*(vg-vf))}, nil
		}
		if liquid = x < xf; liquid {
			hi = T
		} else {
			lo = T
		}
	}

	T0 := c.guess(p, x)
	if !liquid {
		xl, dx := c.value(p, lo, false)
		T0 = lo + (x-xl)/dx
	}
	// The equations run on smoothly a little beyond the ends, which keeps the
	// zero inside the bracket when x belongs to an end.
	const beyond = 1e-3
	T, _, err := root.Safeguarded(func(T float64) (f, df float64) {
		y, dy := c.value(p, T, liquid)
		return y - x, dy
	}, lo-beyond, hi+beyond, math.Min(math.Max(T0, lo), hi), 1e-10, 0)
	if err != nil {
		return Mixture{}, err
	}
	T = math.Min(math.Max(T, lo), hi)
	if liquid {
		v, _, _ := region1(p, T)
		return Mixture{Liquid, T, 0, 1 / v}, nil
	}
	v, _, _ := region2(p, T)
	return Mixture{Steam, T, 1, 1 / v}, nil
}
