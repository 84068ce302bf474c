package tank

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// An Opening is a hole, valve or pipe through which water runs by its own weight:
// an outlet, or the crossover between two tanks. The head that a flow q takes is
//
//	h = [ (K + f L/d) ρ v²/2 + 3 μ q / r³ ] / (ρ g),  v = q/(π r²)
//
// with d = 2 r the true bore, f the factor of [hydraulics.FrictionFactor] and K the
// sum of entry, valves, bends and exit in velocity heads of the bore: 0.5 for a
// sharp entry and 1 for the exit are part of nearly every K.
//
// The last term is creeping flow through a hole. It is a hundredth of a velocity
// head at Re = 4000 and nothing in practice; it makes the flow proportional to the
// head where the head dies away, so that levels come to rest.
//
// Source: H. Darcy and J. Weisbach; for creeping flow R. A. Sampson, "On Stokes's
// current function", Philosophical Transactions of the Royal Society A 182, 1891,
// pp. 449–518.
type Opening struct {
	Bore      units.Length
	Length    units.Length // of the pipe; zero is a hole
	Roughness units.Length // absolute; zero is smooth
	K         float64
}

// Orifice returns the opening without length that a discharge coefficient
// describes, q = C a √(2 g h): K = 1/C².
func Orifice(bore units.Length, coefficient units.Ratio) Opening {
	if coefficient == 0 {
		return Opening{Bore: bore}
	}
	return Opening{Bore: bore, K: 1 / square(float64(coefficient))}
}

// Validate reports what is missing or out of range, in field order.
func (o Opening) Validate() error {
	var p problem.List
	problem.Within(&p, "bore", o.Bore, minBore, maxBore)
	problem.Between(&p, "length", o.Length, 0, maxLength)
	if !(o.Roughness >= 0 && float64(o.Roughness) <= maxRoughness*float64(o.Bore)) {
		p.Add("roughness", o.Roughness.String(), "0 to a twentieth of the bore", units.ErrRange)
	}
	switch {
	case o.K == 0:
		p.Add("k", "", "the sum of entry, valves, bends and exit, such as 1.5", units.ErrMissing)
	default:
		problem.Number(&p, "k", o.K, minK, maxK)
	}
	return p.Join()
}

func checkFluid(p *problem.List, f hydraulics.Fluid) {
	problem.Within(p, "fluid.density", f.Density, minDensity, maxDensity)
	problem.Within(p, "fluid.viscosity", f.Viscosity, minViscosity, maxViscosity)
}

// Head returns the head that a flow through the opening takes: the difference of
// the levels that it joins, or the level above an outlet.
func (o Opening) Head(q units.VolumeFlow, fluid hydraulics.Fluid) (units.Length, error) {
	var p problem.List
	p.Take("opening", o.Validate())
	checkFluid(&p, fluid)
	problem.Between(&p, "flow", q, 0, maxFlow)
	if err := p.Join(); err != nil {
		return 0, err
	}
	w := o.passage(fluid)
	dp, _ := w.loss(float64(q))
	return units.Length(dp / w.weight), nil
}

// Flow returns what a head drives through the opening: the inverse of Head.
func (o Opening) Flow(head units.Length, fluid hydraulics.Fluid) (units.VolumeFlow, error) {
	var p problem.List
	p.Take("opening", o.Validate())
	checkFluid(&p, fluid)
	problem.Between(&p, "head", head, 0, maxHeight)
	if err := p.Join(); err != nil {
		return 0, err
	}
	w := o.passage(fluid)
	q, _ := w.flow(float64(head) * w.weight)
	return units.VolumeFlow(q), nil
}

// A passage is an opening as numbers: Δp = a q + c q² + pipe f(Re) q², Pa and m³/s.
type passage struct {
	a, c   float64
	pipe   float64
	perRe  float64 // Re of 1 m³/s
	k      float64 // roughness over bore
	weight float64 // ρ g
}

func (o Opening) passage(fluid hydraulics.Fluid) passage {
	d, rho, mu := float64(o.Bore), float64(fluid.Density), float64(fluid.Viscosity)
	area := math.Pi / 4 * d * d
	head := rho / (2 * area * area)
	return passage{
		a:      3 * mu / (d * d * d / 8),
		c:      o.K * head,
		pipe:   float64(o.Length) / d * head,
		perRe:  rho * d / (mu * area),
		k:      float64(o.Roughness) / d,
		weight: rho * gravity,
	}
}

// loss returns the pressure that q ≥ 0 takes and its derivative.
func (w *passage) loss(q float64) (dp, slope float64) {
	dp, slope = q*(w.a+w.c*q), w.a+2*w.c*q
	if w.pipe == 0 {
		return dp, slope
	}
	Re := q * w.perRe
	if Re < 1e-3 { // laminar: f Re = 64, and no division by nothing
		lam := w.pipe * 64 / w.perRe
		return dp + lam*q, slope + lam
	}
	f, df := hydraulics.FrictionFactorSlope(Re, w.k)
	pq := w.pipe * q
	return dp + pq*q*f, slope + pq*(2*f+df*Re)
}

// flow returns the flow that dp ≥ 0 drives and its derivative.
func (w *passage) flow(dp float64) (q, slope float64) {
	if dp <= 0 {
		_, s := w.loss(0)
		return 0, 1 / s
	}
	// Without the pipe the flow is greater: the positive root of c q² + a q = dp.
	root2 := func(c float64) float64 { return 2 * dp / (w.a + math.Sqrt(w.a*w.a+4*c*dp)) }
	q = root2(w.c)
	if w.pipe > 0 {
		f := func(q float64) (float64, float64) {
			p, s := w.loss(q)
			return p - dp, s
		}
		if x, _, err := root.Safeguarded(f, 0, q, root2(w.c+0.02*w.pipe), 0, 4e-16*dp); err == nil {
			q = x
		}
	}
	_, s := w.loss(q)
	return q, 1 / s
}

// turbulent is the Reynolds number from which the friction factor is that of
// Colebrook and White: see hydraulics.FrictionFactor.
const turbulent = 4000

// explicit returns the turbulent flow q at y = q √f, and its derivative. Colebrook's
// equation is then solved already:
//
//	q = x y,  x = 1/√f = −2 log10( k/3.7 + 2.51/(perRe y) )
func (w *passage) explicit(y float64) (q, slope float64) {
	d := 2.51 / (w.perRe * y)
	s := w.k/3.7 + d
	x := -2 / math.Ln10 * math.Log(s)
	return x * y, x + 2/math.Ln10*d/s
}

// rooted is y of a turbulent flow.
func (w *passage) rooted(q float64) float64 {
	return q * math.Sqrt(hydraulics.FrictionFactor(q*w.perRe, w.k))
}

// A running flow is one that a pressure drives, and q √f where it is turbulent.
type running struct{ q, y float64 }

// running is flow without its derivative.
func (w *passage) running(dp float64) (r running) {
	if w.pipe > 0 && dp > 0 {
		// a flow near it, with f = 0.02
		q := 2 * dp / (w.a + math.Sqrt(w.a*w.a+4*(w.c+0.02*w.pipe)*dp))
		f := func(y float64) (float64, float64) {
			q, dq := w.explicit(y)
			return q*(w.a+w.c*q) + w.pipe*y*y - dp, (w.a+2*w.c*q)*dq + 2*w.pipe*y
		}
		at := root.Tangent{X: q * math.Sqrt(0.02)}
		at.F, at.Slope = f(at.X)
		if _, ok := at.Zero(f, 0, q, 1e-7); ok {
			r.y = at.X
			if r.q, _ = w.explicit(r.y); r.q*w.perRe >= turbulent {
				return r
			}
		}
	}
	r.y = 0
	r.q, _ = w.flow(dp)
	return r
}
