package hydraulics

import "math"

// Reynolds numbers between which the friction law passes from laminar to
// turbulent flow in a straight pipe.
const (
	laminarEnd     = 2000
	turbulentStart = 4000
)

// perLog turns a natural logarithm into twice a decimal one: 2/ln 10.
const perLog = 2 / math.Ln10

// A Regime says which part of the friction law gave a result.
type Regime uint8

const (
	Still        Regime = iota // no flow
	Laminar                    // Re ≤ 2000 in a straight pipe
	Transitional               // between: the bridge of [FrictionFactor]
	Turbulent                  // Re ≥ 4000 in a straight pipe
)

var regimeNames = [...]string{"still", "laminar", "transitional", "turbulent"}

// String returns the regime as a word.
func (r Regime) String() string {
	if int(r) < len(regimeNames) {
		return regimeNames[r]
	}
	return "unknown regime"
}

// FrictionFactor returns the Darcy friction factor of flow in a straight round
// pipe. It is the law every solver of this package uses.
//
//	Re ≤ 2000          f = 64/Re
//	2000 < Re < 4000   the bridge
//	Re ≥ 4000          1/√f = −2 log10( k/3.7 + 2.51/(Re √f) )
//
// Re is the Reynolds number and k the roughness divided by the inside diameter,
// both dimensionless. f is the Darcy factor, four times the Fanning factor.
//
// The bridge is the cubic in Re that meets its neighbours in value and slope at
// 2000 and at 4000. Between those limits the flow itself is undecided and no law
// is right; this one is continuous in value and in slope, and f Re², hence the
// pressure loss, rises with Re throughout.
//
// Range: 0 ≤ k ≤ 0.05, the range of Moody's chart. Up to k = 1 the formulas are
// evaluated as they stand; a larger k is no pipe and gives NaN.
//
// Error: the Colebrook–White equation is solved to a relative 1e-12 in f for
// every Re ≥ 4000 (TestFrictionFactor_solvesColebrook). The equation itself is
// usually taken to stand within 10 to 15 % of a real commercial pipe.
//
// Source: C. F. Colebrook, "Turbulent flow in pipes, with particular reference
// to the transition region between the smooth and rough pipe laws", J. Inst.
// Civil Engineers 11, 1939, pp. 133–156; L. F. Moody, "Friction factors for pipe
// flow", Trans. ASME 66, 1944, pp. 671–684. One step of fourth order solves it:
// F. N. Fritsch, R. E. Shafer and W. P. Crowley, "Algorithm 443: Solution of the
// transcendental equation w·e^w = x", Comm. ACM 16(2), 1973, pp. 123–124.
//
// Special cases: NaN if either argument is NaN or negative; +Inf at Re = 0.
func FrictionFactor(Re, k float64) float64 {
	if Re >= turbulentStart && k >= 0 && k <= 1 {
		A, B := k/3.7, 2.51/Re
		if !(A+B > 0) { // Re = +Inf in a smooth pipe
			return 0
		}
		x, _, _ := colebrookStep(A, B, colebrookStart(A, B))
		return 1 / (x * x)
	}
	f, _ := slowFriction(Re, k)
	return f
}

// FrictionFactorSlope returns the friction factor of [FrictionFactor] and its
// derivative with respect to Re at constant k.
//
//	turbulent:  d ln f / d ln Re = −2/(1 + y),  y = (k/3.7 + 2.51/(Re √f)) · Re · ln 10 / 5.02
//
// Range, source and special cases are those of FrictionFactor; at Re = 0 the
// slope is −Inf.
func FrictionFactorSlope(Re, k float64) (f, slope float64) {
	if Re >= turbulentStart && k >= 0 && k <= 1 {
		f, u := colebrook(Re, k)
		return f, -2 * u * f / Re
	}
	return slowFriction(Re, k)
}

// A FrictionPoint is where a friction factor was found last, and where the next one of
// the same roughness is looked for. Flows that follow one another closely, as the
// trials of a search do, then cost half as much. The zero FrictionPoint is ready.
type FrictionPoint struct{ re, x, u float64 }

// Factor returns what [FrictionFactorSlope] returns: the factor to the same 1e-12, the
// slope to 1e-5. A search that is to give the same bits again begins with the same
// point.
func (p *FrictionPoint) Factor(Re, k float64) (f, slope float64) {
	if !(Re >= turbulentStart && k >= 0 && k <= 1) {
		return slowFriction(Re, k)
	}
	inv := 1 / Re
	A, B := k/3.7, 2.51*inv
	if !(A+B > 0) { // Re = +Inf in a smooth pipe
		return 0, 0
	}
	// The logarithm of the ratio by two terms of its series; 1/√f is nearly straight
	// over it.
	t := (Re - p.re) / (Re + p.re)
	from := p.x * (1 + p.u*2*t*(1+t*t*(1./3)))
	if !(t > -0.2 && t < 0.2) {
		from = colebrookStart(A, B)
	}
	x, u, r := colebrookStep(A, B, from)
	if !(math.Abs(r) <= tight) {
		from = colebrookStart(A, B)
		x, u, _ = colebrookStep(A, B, from)
	}
	u -= u * u * (x - from) * (1 / perLog) // to first order what u is at the new x
	p.re, p.x, p.u = Re, x, u
	f = 1 / (x * x)
	return f, -2 * u * f * inv
}

// slowFriction covers what is left when the flow is not turbulent.
func slowFriction(Re, k float64) (f, slope float64) {
	switch {
	case !(k >= 0 && k <= 1) || !(Re >= 0):
		return math.NaN(), math.NaN()
	case Re <= laminarEnd:
		f = 64 / Re
		return f, -f / Re
	case Re < turbulentStart:
		b := straightBridge(k)
		return b.at(Re)
	}
	f, u := colebrook(Re, k)
	return f, -2 * u * f / Re
}

// colebrook solves the Colebrook–White equation from a standing start. It
// returns f and u = −(d ln f / d ln Re)/2.
func colebrook(Re, k float64) (f, u float64) {
	A := k / 3.7
	B := 2.51 / Re
	if !(A+B > 0) { // Re = +Inf in a smooth pipe
		return 0, 0
	}
	x, _, _ := colebrookStep(A, B, colebrookStart(A, B))
	b := perLog * B
	return 1 / (x * x), b / (b + A + B*x)
}

// colebrookStart returns x = 1/√f within 0.5 % for Re ≥ 4000: one rough explicit
// value in the manner of Haaland, put once through the equation itself, with
// logarithms good to three digits.
func colebrookStart(A, B float64) float64 {
	x := -1.8 * log10of2 * roughLog2(0.45*A+2.75*B)
	return -2 * log10of2 * roughLog2(A+B*x)
}

const log10of2 = math.Ln2 / math.Ln10

// colebrookStep improves x, the inverse square root of f, by one step of fourth
// order. It also returns u = 1/(1 + y) before the step and r, the residual before
// the step of the equation in the form y + ln y = const. The next residual is near
// (2y² − 8y − 1)/(72 (1+y)⁶) r⁴; y ≥ 5.7 for every Re ≥ 4000, so |r| ≤ 0.02
// leaves less than 5e-13.
func colebrookStep(A, B, x float64) (x1, u, r float64) {
	s := A + B*x
	r = -x*(1/perLog) - math.Log(s)
	b := perLog * B
	u = b / (b + s)
	return x + colebrookChange(r, u), u, r
}

// colebrookChange is the step itself. With t = r u, q = t u and e = 2t/3 − q it is
// (2/ln 10) r (1−u) (1 + e + q/2)/(1 + e), with the quotient as a series in e, which
// is below 4e-3.
func colebrookChange(r, u float64) float64 {
	t := r * u
	q := t * u
	e := t*(2./3) - q
	return perLog * r * (1 - u) * (1 + 0.5*q*(1-e+e*e))
}

// colebrookGlance is colebrookStep with a logarithm good to 2e-6, for flows that
// are themselves a guess.
func colebrookGlance(A, B, x float64) (x1, u float64) {
	s := A + B*x
	bits := math.Float64bits(s)
	m := math.Float64frombits(bits&(1<<52-1) | 1023<<52)
	m2 := m * m
	ln := math.Ln2*float64(int64(bits>>52)-1023) +
		(4.2052348414658799*m - 2.0996478486783223) +
		m2*((2.2269434607636177*m-3.6471203953022154)+
			m2*((0.18370084115291822*m-0.85207959515002515)-m2*0.017029610589193188))
	b := perLog * B
	u = b / (b + s)
	return x + colebrookChange(-x*(1/perLog)-ln, u), u
}

// roughLog2 returns the binary logarithm of a positive normal number within
// 8.3e-4: the exponent, and a cubic through the Chebyshev points for the rest.
func roughLog2(v float64) float64 {
	bits := math.Float64bits(v)
	m := math.Float64frombits(bits&(1<<52-1) | 1023<<52)
	return float64(int64(bits>>52)-1023) + ((0.152700284798*m-1.0268049074)*m+3.01116215084)*m - 2.13623206541
}

// A bridge is the part of a friction law between laminar and turbulent flow: the
// cubic through two values with two slopes.
type bridge struct {
	re, width  float64 // where it begins, how long it is
	a, b, c, d float64 // f = a + b t + c t² + d t³, t = (Re − re)/width
}

// newBridge joins f0 with slope s0 at Re = re0 to f1 with slope s1 at re1.
func newBridge(re0, f0, s0, re1, f1, s1 float64) bridge {
	w := re1 - re0
	s0, s1 = s0*w, s1*w
	return bridge{re0, w, f0, s0, 3*(f1-f0) - 2*s0 - s1, 2*(f0-f1) + s0 + s1}
}

func straightBridge(k float64) bridge {
	const f0 = 64. / laminarEnd
	f1, u := colebrook(turbulentStart, k)
	return newBridge(laminarEnd, f0, -f0/laminarEnd, turbulentStart, f1, -2*u*f1/turbulentStart)
}

// at returns the friction factor and its derivative.
func (b *bridge) at(Re float64) (f, slope float64) {
	t := (Re - b.re) / b.width
	f = b.a + t*(b.b+t*(b.c+t*b.d))
	return f, (b.b + t*(2*b.c+3*t*b.d)) / b.width
}
