package thermal

import (
	"math"

	"example.com/washrig/internal/root"
)

// A twoNode is a linear system of two heat stores, metal s and water w, with
// constant coefficients. It is solved exactly, by its eigenvalues.
//
//	Cs dTs/dt = q + G(Tg − Ts) − K(Ts − Tw) − L(Ts − Ta)
//	Cw dTw/dt = K(Ts − Tw) − W(Tw − Ti)
//
// C in J/K, conductances in W/K, temperatures in K, q in W.
type twoNode struct {
	Cs, Cw float64 // heat capacities
	q      float64 // heat into the metal that does not depend on it
	G, Tg  float64 // conductance to hot gas
	K      float64 // metal to water
	L, Ta  float64 // metal to surroundings
	W, Ti  float64 // capacity rate of the water that flows through, and its inlet
}

// A pair is the two temperatures, or their derivatives or integrals.
type pair struct{ s, w float64 }

// modes is the solution of a twoNode, ready for use.
type modes struct {
	n          twoNode
	a, b, c, d float64 // matrix −a b; c −d, 1/s
	l1, l2     float64 // its eigenvalues, l2 < l1 ≤ 0
	fs, fw     float64 // forcing, K/s
}

func (n twoNode) solve() modes {
	m := modes{n: n}
	m.a, m.b = (n.K+n.L+n.G)/n.Cs, n.K/n.Cs
	m.c, m.d = n.K/n.Cw, (n.K+n.W)/n.Cw
	m.fs = (n.q + n.G*n.Tg + n.L*n.Ta) / n.Cs
	m.fw = n.W * n.Ti / n.Cw
	half := 0.5 * (m.a - m.d)
	r := math.Sqrt(half*half + m.b*m.c)
	m.l2 = -0.5*(m.a+m.d) - r
	// The product of the eigenvalues is the determinant, written without
	// cancellation; it is zero for a closed system.
	m.l1 = (n.K*n.W + (n.L+n.G)*(n.K+n.W)) / (n.Cs * n.Cw) / m.l2
	return m
}

// spectral returns f1 P1 x + f2 P2 x, the projections of x on the two modes
// weighted.
func (m *modes) spectral(f1, f2 float64, x pair) pair {
	// P1 = (A − l2 I)/(l1 − l2), P2 = (l1 I − A)/(l1 − l2).
	g := 1 / (m.l1 - m.l2)
	p := pair{(-m.a-m.l2)*x.s + m.b*x.w, m.c*x.s + (-m.d-m.l2)*x.w}
	q := pair{(m.l1+m.a)*x.s - m.b*x.w, -m.c*x.s + (m.l1+m.d)*x.w}
	return pair{g * (f1*p.s + f2*q.s), g * (f1*p.w + f2*q.w)}
}

// at is the state a time t after y.
func (m *modes) at(y pair, t float64) pair {
	h := m.spectral(math.Exp(m.l1*t), math.Exp(m.l2*t), y)
	f := m.spectral(phi1(m.l1, t), phi1(m.l2, t), pair{m.fs, m.fw})
	return pair{h.s + f.s, h.w + f.w}
}

// integral of the state over a time t that begins at y, K·s.
func (m *modes) integral(y pair, t float64) pair {
	h := m.spectral(phi1(m.l1, t), phi1(m.l2, t), y)
	f := m.spectral(phi2(m.l1, t), phi2(m.l2, t), pair{m.fs, m.fw})
	return pair{h.s + f.s, h.w + f.w}
}

// slope is the derivative of the state at y.
func (m *modes) slope(y pair) pair {
	return pair{-m.a*y.s + m.b*y.w + m.fs, m.c*y.s - m.d*y.w + m.fw}
}

// steady is where the system settles, and whether it does.
func (m *modes) steady() (pair, bool) {
	n := &m.n
	det := n.K*n.W + (n.L+n.G)*(n.K+n.W)
	if det == 0 {
		return pair{}, false
	}
	heat := n.q + n.G*n.Tg + n.L*n.Ta
	return pair{
		s: (heat*(n.K+n.W) + n.K*n.W*n.Ti) / det,
		w: (heat*n.K + (n.K+n.L+n.G)*n.W*n.Ti) / det,
	}, true
}

// A node picks one of the two temperatures.
type node func(pair) float64

func metalNode(y pair) float64 { return y.s }
func waterNode(y pair) float64 { return y.w }

// turn is the time at which the temperature of a node, started at y, has its only
// extremum, or +Inf. Its slope is a sum of two exponentials.
func (m *modes) turn(y pair, of node) float64 {
	v := m.slope(y)
	d1, d2 := of(m.spectral(1, 0, v)), of(m.spectral(0, 1, v))
	if d1 == 0 || d2 == 0 || -d2/d1 <= 1 {
		return math.Inf(1)
	}
	return math.Log(-d2/d1) / (m.l1 - m.l2)
}

// longest is a time after which nothing happens any more, s.
const longest = 1e8

// reach returns the first time at which a node, started at y, is at the target,
// and whether it ever is within [longest].
func (m *modes) reach(y pair, of node, target float64) (float64, bool) {
	g := func(t float64) float64 { return of(m.at(y, t)) - target }
	from := of(y) - target
	if from == 0 {
		return 0, true
	}
	lo := 0.0
	if t := m.turn(y, of); t < longest {
		if to := g(t); (to > 0) != (from > 0) || to == 0 {
			return cross(g, lo, t)
		}
		lo = t
	}
	// Beyond the extremum it moves one way, to its steady state or without end.
	step := math.Min(1/math.Abs(m.l2), longest-lo)
	for hi := lo + step; ; hi = math.Min(lo+step, longest) {
		if to := g(hi); (to > 0) != (from > 0) || to == 0 {
			return cross(g, lo, hi)
		}
		if hi >= longest {
			return 0, false
		}
		lo, step = hi, 2*step
	}
}

func cross(g func(float64) float64, lo, hi float64) (float64, bool) {
	t, _, err := root.Bracketed(g, lo, hi, 1e-12*hi)
	return t, err == nil
}

// phi1 is ∫₀ᵗ e^(λτ)dτ = (e^(λt) − 1)/λ, t for λ = 0.
func phi1(l, t float64) float64 {
	if x := l * t; math.Abs(x) > 1e-300 {
		return math.Expm1(x) / l
	}
	return t
}

// phi2 is ∫₀ᵗ phi1(λ, τ)dτ = (e^(λt) − 1 − λt)/λ², t²/2 for λ = 0.
func phi2(l, t float64) float64 {
	x := l * t
	if math.Abs(x) < 0.05 {
		// Taylor series; the next term is below 1e-17 of the first.
		s := 1.0
		for k := 10.0; k >= 3; k-- {
			s = 1 + s*x/k
		}
		return 0.5 * t * t * s
	}
	return (math.Expm1(x) - x) / (l * l)
}
