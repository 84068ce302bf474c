package thermal

import (
	"math"

	"example.com/washrig/internal/root"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// An Arrival is when hot water sent into a cold hose comes out at the far end.
type Arrival struct {
	Plug units.Duration // until the first water sent in arrives: volume over flow
	// Step is the share of the full rise with which it arrives; the rest has
	// gone into the wall.
	Step units.Ratio
	// Time until the share asked for has arrived; Plug or more.
	Time units.Duration
	// Balanced is the time by heat capacities alone, water and wall together over
	// the flow: what a wall that conducts perfectly would make of it.
	Balanced units.Duration
}

// Arrival returns how long hot water takes to the far end of a hose that starts
// cold all through, until the given share of the full rise has arrived.
//
// The water moves as a plug and gives heat to the wall, which has one temperature
// across:
//
//	J(ξ, τ) = 1 − e^(−τ) ∫₀^ξ e^(−s) I₀(2√(τs)) ds = share
//	ξ = U′L/(ṁ·cp),  τ = U′(t − t_plug)/C′
//
// U′ is the conductance per metre from water to the middle of the wall, C′ the heat
// capacity of a metre of wall. Loss to the air is not in it; it takes its share of
// the steady rise ([Hose.Deliver]). A wall of rubber lags behind its inner skin, so
// the truth is a little later for thick walls.
//
// Range: flow 1 g/s to 100 kg/s, share above 0 up to 0.999; water properties at hot.
//
// Source: A. Anzelius, Zeitschrift für angewandte Mathematik und Mechanik 6, 1926,
// and T. E. W. Schumann, "Heat transfer: a liquid flowing through a porous prism",
// Journal of the Franklin Institute 208, 1929, pp. 405–416.
func (h Hose) Arrival(flow units.MassFlow, hot units.Temperature, line units.AbsolutePressure, share units.Ratio) (Arrival, error) {
	if err := all(
		units.At("hose", h.wallValidate()), hoseFlow(flow), between("hot", hot, coldestWater, hottestWater),
		linePressure("line", line), inside("share", share, 1e-6, 0.999),
	); err != nil {
		return Arrival{}, err
	}
	p, T := float64(line), hot.Kelvin()
	if err := liquidAt("hot", p, T); err != nil {
		return Arrival{}, err
	}
	s, err := water.At(p, T)
	if err != nil {
		return Arrival{}, units.At("hot", err)
	}
	c := hoseKernel{h: h, m: float64(flow), p: p}
	hi, err := c.inside(T)
	if err != nil {
		return Arrival{}, units.At("hot", err)
	}
	d, D, L := float64(h.Bore), float64(h.Outside), float64(h.Length)
	wall := float64(h.WallDensity) * float64(h.WallHeat) * math.Pi / 4 * (D*D - d*d) // J/(m·K)
	// To the circle that halves the heat capacity of the wall.
	middle := math.Sqrt((d*d + D*D) / 2)
	U := 1 / (1/(math.Pi*d*hi) + math.Log(middle/d)/(2*math.Pi*float64(h.Conductivity)))

	plug := s.Density * math.Pi / 4 * d * d * L / c.m
	xi := U * L / (c.m * s.HeatCapacity)
	a := Arrival{
		Plug: units.Duration(plug), Step: units.Ratio(math.Exp(-xi)), Time: units.Duration(plug),
		Balanced: units.Duration(plug + wall*L/(c.m*s.HeatCapacity)),
	}
	if want := float64(share); want > float64(a.Step) {
		tau, err := arrivalTime(xi, want)
		if err != nil {
			return Arrival{}, units.At("share", err)
		}
		a.Time = units.Duration(plug + tau*wall/U)
	}
	return a, nil
}

// arrivalTime is the τ at which J(ξ, τ) reaches the share.
func arrivalTime(xi, share float64) (float64, error) {
	// The front of J passes near τ = ξ with the width √(2ξ) or so.
	hi := xi + 8*math.Sqrt(2*xi+1) + 8
	for {
		if J, _ := schumann(xi, hi); J >= share || hi >= 1e12 {
			break
		}
		hi *= 2
	}
	tau, n, err := root.Safeguarded(func(tau float64) (f, slope float64) {
		J, slope := schumann(xi, tau)
		return J - share, slope
	}, 0, hi, xi+math.Sqrt(2*xi), 1e-12*hi, 0)
	if err != nil {
		return 0, &units.SolverError{Solver: "arrival", Iterations: n, Lo: 0, Hi: hi}
	}
	return tau, nil
}

// schumann is the function J(ξ, τ) of Anzelius and Schumann, from 0 to 1, and its
// slope over τ: the probability that a Poisson variable of mean ξ is at most one of
// mean τ. Where τ grows, the latter gets greater by one with the probability of every
// value, which counts where the former is just one more.
func schumann(xi, tau float64) (J, slope float64) {
	if xi+tau > 5000 {
		// Both are so large that their difference is normal; skewness corrected
		// (Edgeworth's first term, with the continuity correction ½).
		v := xi + tau
		z := (tau - xi + 0.5) / math.Sqrt(v)
		skew := (xi - tau) / (v * math.Sqrt(v))
		density := math.Exp(-z*z/2) / math.Sqrt(2*math.Pi)
		return min(1, max(0, 0.5*math.Erfc(-z/math.Sqrt2)-density*skew/6*(z*z-1))), density / math.Sqrt(v)
	}
	if xi > 600 || tau > 600 {
		return schumannLog(xi, tau) // e^(−ξ) or e^(−τ) would lose its digits
	}
	// Σ over n of P(N_τ = n)·P(N_ξ ≤ n).
	below := 0.0
	px, pt := math.Exp(-xi), math.Exp(-tau)
	for n := 0; ; n++ {
		below += px
		J += pt * min(below, 1)
		fn := float64(n + 1)
		px *= xi / fn
		slope += pt * px
		if fn > tau+1 && fn > xi+1 && pt < 1e-18 {
			return min(J, 1), slope
		}
		pt *= tau / fn
	}
}

// schumannLog is the same sum with probabilities by their logarithms.
func schumannLog(xi, tau float64) (J, slope float64) {
	logPoisson := func(mean float64, n int) float64 {
		lg, _ := math.Lgamma(float64(n) + 1)
		return float64(n)*math.Log(mean) - mean - lg
	}
	below := 0.0
	top := int(math.Max(xi, tau) + 12*math.Sqrt(math.Max(xi, tau)) + 40)
	for n := 0; n <= top; n++ {
		below += math.Exp(logPoisson(xi, n))
		pt := math.Exp(logPoisson(math.Max(tau, 1e-300), n))
		J += pt * min(below, 1)
		slope += pt * math.Exp(logPoisson(xi, n+1))
	}
	return min(J, 1), slope
}
