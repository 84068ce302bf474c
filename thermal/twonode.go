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
}

func (n twoNode) solve() modes {
	m := modes{n: n}
	m.a, m.b = (n.K+n.L+n.G)/n.Cs, n.K/n.Cs
	m.c, m.d = n.K/n.Cw, (n.K+n.W)/n.Cw
	half := 0.5 * (m.a - m.d)
	r := math.Sqrt(half*half + m.b*m.c)
	m.l2 = -0.5*(m.a+m.d) - r
	// The product of the eigenvalues is the determinant, written without
	// cancellation; it is zero for a closed system.
	m.l1 = (n.K*n.W + (n.L+n.G)*(n.K+n.W)) / (n.Cs * n.Cw) / m.l2
	return m
}

// parts are those of the slope at y that belong to the slow and the fast mode.
//
// The slow one is P1 = (A − l2 I)/(l1 − l2) times the slope, where what passes between
// metal and water is taken apart from what comes from outside: of the former next to
// nothing belongs to the slow mode, in a closed system nothing.
func (m *modes) parts(y pair) (slow, fast pair) {
	n := &m.n
	across := n.K * (y.s - y.w)
	x := pair{(n.q + n.G*(n.Tg-y.s) - n.L*(y.s-n.Ta)) / n.Cs, -n.W * (y.w - n.Ti) / n.Cw}
	g := 1 / (m.l1 - m.l2)
	slow = pair{
		g * (across/n.Cs*(-n.W/n.Cw-m.l1) + (m.d+m.l1)*x.s + m.b*x.w),
		g * (across/n.Cw*((n.L+n.G)/n.Cs+m.l1) + m.c*x.s + (m.a+m.l1)*x.w),
	}
	return slow, pair{x.s - across/n.Cs - slow.s, x.w + across/n.Cw - slow.w}
}

// at is the state a time t after y: each mode carries its part of the slope on.
func (m *modes) at(y pair, t float64) pair { return m.to(y, m.carried(t)) }

// carried is how far the slow and the fast mode carry their slopes in some time, s.
type carried struct{ slow, fast float64 }

func (m *modes) carried(t float64) carried { return carried{phi1(m.l1, t), phi1(m.l2, t)} }

// to is at for a time whose modes are known.
func (m *modes) to(y pair, f carried) pair {
	a, b := m.parts(y)
	return pair{y.s + f.slow*a.s + f.fast*b.s, y.w + f.slow*a.w + f.fast*b.w}
}

// integral of the state over a time t that begins at y, K·s.
func (m *modes) integral(y pair, t float64) pair {
	a, b := m.parts(y)
	f1, f2 := phi2(m.l1, t), phi2(m.l2, t)
	return pair{y.s*t + f1*a.s + f2*b.s, y.w*t + f1*a.w + f2*b.w}
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
	slow, fast := m.parts(y)
	return m.turnOf(of(slow), of(fast))
}

// turnOf is turn by the parts of the slope at the start.
func (m *modes) turnOf(d1, d2 float64) float64 {
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
	return m.reachNear(y, of, target, 0)
}

// reachNear is reach for a time that is near, where that is not zero.
func (m *modes) reachNear(y pair, of node, target, near float64) (float64, bool) {
	from := of(y) - target
	if from == 0 {
		return 0, true
	}
	slow, fast := m.parts(y)
	d1, d2 := of(slow), of(fast)
	g := func(t float64) (x, slope float64) {
		p1, p2 := phi1(m.l1, t), phi1(m.l2, t)
		return from + d1*p1 + d2*p2, d1*(1+m.l1*p1) + d2*(1+m.l2*p2)
	}
	lo, hi := 0.0, longest
	if t := m.turnOf(d1, d2); t < longest {
		if to, _ := g(t); (to > 0) != (from > 0) || to == 0 {
			hi = t
		} else {
			lo = t
		}
	}
	// Beyond the extremum it moves one way, to its steady state or without end: the
	// fast mode soon takes its whole way, the slow one gets to the rest of it.
	start := near
	if hi == longest {
		end, _ := g(longest)
		if (end > 0) == (from > 0) && end != 0 {
			return 0, false
		}
		if start == 0 {
			start = -(from - d2/m.l2) / d1
			if x := start * m.l1; math.Abs(x) > 1e-9 {
				start = math.Log1p(x) / m.l1
			}
		}
	}
	if !(start > lo && start < hi) {
		start = math.Min(lo+1/math.Abs(m.l2), 0.5*(lo+hi))
	}
	t, _, err := root.Safeguarded(g, lo, hi, start, 1e-12*start, 1e-13*math.Abs(target))
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
