package hydraulics

import (
	"math"
)

// firstX is the inverse square root of a friction factor of 0.02, from which one
// step of colebrookStep comes within 1e-4 of any factor in a hose.
const firstX = 7.07

// A friction is the loss of one round tube as numbers, and where its last
// evaluation ended. Flows are in kg/s.
type friction struct {
	a      float64 // k/3.7
	b      float64 // 2.51/Re is b/m
	loss   float64 // Δp = loss f m²
	lam    float64 // laminar Δp = lam m, in a straight tube
	perRe  float64 // m at Re = 1
	curve  float64 // √(d/D), zero when straight
	end    float64 // m up to which flow is laminar
	start  float64 // m from which it is turbulent
	bridge int     // index of the bridge, −1 until needed
	x      float64 // 1/√f of the last turbulent evaluation, or a first guess
	dp     float64 // the last loss
	slope  float64 // and its derivative
}

// drop computes the loss at flow m > 0 and its derivative; inv is 1/m.
func (p *friction) drop(w *Workspace, m, inv float64) {
	if m >= p.start {
		B := p.b * inv
		var x, u, r float64
		if w.rough {
			x, u = colebrookGlance(p.a, B, p.x)
			r = 1
		} else {
			x, u, r = colebrookStep(p.a, B, p.x)
		}
		if r = math.Abs(r); !(r <= w.loose) {
			if !(r <= 1) { // the last x is of another decade
				p.x = colebrookStart(p.a, B)
				x, u, r = colebrookStep(p.a, B, p.x)
			}
			w.loose = max(w.loose, math.Abs(r))
		}
		u -= u * u * (x - p.x) * (1 / perLog) // to first order what u is at the new x
		p.x = x
		f := 1 / (x * x)
		lm := p.loss * m
		p.dp = lm * m * (f + coilExcess*p.curve)
		p.slope = 2 * lm * (f - u*f + coilExcess*p.curve)
		return
	}
	p.slow(w, m)
}

// slow covers laminar and transitional flow.
func (p *friction) slow(w *Workspace, m float64) {
	if m <= p.end && p.curve == 0 {
		p.dp, p.slope = p.lam*m, p.lam
		return
	}
	Re := m / p.perRe
	var f, s float64
	if m <= p.end {
		f, s = coilLaminar(Re, p.curve)
	} else {
		if p.bridge < 0 {
			p.bridge = len(w.bridges)
			if p.curve > 0 {
				w.bridges = append(w.bridges, coilBridge(p.a*3.7, p.curve))
			} else {
				w.bridges = append(w.bridges, straightBridge(p.a*3.7))
			}
		}
		w.bent = true
		f, s = w.bridges[p.bridge].at(Re)
	}
	lm := p.loss * m
	p.dp, p.slope = lm*m*f, lm*(2*f+s*Re)
}

func (p *friction) regime(m float64) Regime {
	switch {
	case m <= 0:
		return Still
	case m <= p.end:
		return Laminar
	case m < p.start:
		return Transitional
	}
	return Turbulent
}
