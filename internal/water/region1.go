package water

// Region 1 of IAPWS-IF97: liquid water.
//
// Source: IAPWS R7-97(2012), Revised Release on the IAPWS Industrial
// Formulation 1997, section 5.1, Eq. 7 and Table 2; derived properties Table 3.
//
//	g/(RT) = γ(π, τ) = Σ n (7.1 − π)^I (τ − 1.222)^J,  π = p/16.53 MPa, τ = 1386 K/T
//
// One coefficient a line; the exponents stand beside them in region1Terms.
const (
	n1  = 1.4632971213167e-1
	n2  = -8.4548187169114e-1
	n3  = -3.756360367204
	n4  = 3.3855169168385
	n5  = -9.5791963387872e-1
	n6  = 1.5772038513228e-1
	n7  = -1.6616417199501e-2
	n8  = 8.1214629983568e-4
	n9  = 2.8319080123804e-4
	n10 = -6.0706301565874e-4
	n11 = -1.8990068218419e-2
	n12 = -3.2529748770505e-2
	n13 = -2.1841717175414e-2
	n14 = -5.283835796993e-5
	n15 = -4.7184321073267e-4
	n16 = -3.0001780793026e-4
	n17 = 4.7661393906987e-5
	n18 = -4.4141845330846e-6
	n19 = -7.2694996297594e-16
	n20 = -3.1679644845054e-5
	n21 = -2.8270797985312e-6
	n22 = -8.5205128120103e-10
	n23 = -2.2425281908e-6
	n24 = -6.5171222895601e-7
	n25 = -1.4341729937924e-13
	n26 = -4.0516996860117e-7
	n27 = -1.2734301741641e-9
	n28 = -1.7424871230634e-10
	n29 = -6.8762131295531e-19
	n30 = 1.4478307828521e-20
	n31 = 2.6335781662795e-23
	n32 = -1.1947622640071e-23
	n33 = 1.8228094581404e-24
	n34 = -9.3537087292458e-26
)

// Reducing quantities of region 1.
const (
	pStar1 = 16.53e6 // Pa
	tStar1 = 1386.0  // K
	pi0    = 7.1
	tau0   = 1.222
)

// gasConstant is the specific gas constant of ordinary water, J/(kg·K)
// (IAPWS R7-97(2012), Eq. 1).
const gasConstant = 461.526

// A term is one row of a coefficient table: n (…)^i (…)^j.
type term struct {
	i, j int
	n    float64
}

var region1Terms = [34]term{
	{0, -2, n1},
	{0, -1, n2},
	{0, 0, n3},
	{0, 1, n4},
	{0, 2, n5},
	{0, 3, n6},
	{0, 4, n7},
	{0, 5, n8},
	{1, -9, n9},
	{1, -7, n10},
	{1, -1, n11},
	{1, 0, n12},
	{1, 1, n13},
	{1, 3, n14},
	{2, -3, n15},
	{2, 0, n16},
	{2, 1, n17},
	{2, 3, n18},
	{2, 17, n19},
	{3, -4, n20},
	{3, 0, n21},
	{3, 6, n22},
	{4, -5, n23},
	{4, -2, n24},
	{4, 10, n25},
	{5, -8, n26},
	{8, -11, n27},
	{8, -6, n28},
	{21, -29, n29},
	{23, -31, n30},
	{29, -38, n31},
	{30, -39, n32},
	{31, -40, n33},
	{32, -41, n34},
}

// region1 returns specific volume (m³/kg), enthalpy (J/kg) and isobaric heat
// capacity (J/(kg·K)) of liquid water at p (Pa) and T (K), without a check.
//
// It is the sum of region1Terms for γ_π, γ_τ and γ_ττ only, written out. The
// terms are gathered by I into polynomials in y = τ − 1.222 and z = 1/y, and
// the six terms of I ≥ 21 use x^I y^J = (x/y)^I z^(−J−I), x = 7.1 − π.
func region1(p, T float64) (v, h, cp float64) {
	tau := tStar1 / T
	x := pi0 - p*(1/pStar1)
	y := tau - tau0
	z := 1 / y

	x2 := x * x
	x3 := x2 * x
	x4 := x2 * x2
	x7 := x4 * x3
	x8 := x4 * x4

	y2 := y * y
	y3 := y2 * y
	y4 := y2 * y2
	y5 := y3 * y2
	y6 := y3 * y3
	y10 := y6 * y4
	y17 := y10 * (y6 * y)

	z2 := z * z
	z3 := z2 * z
	z4 := z2 * z2
	z5 := z3 * z2
	z6 := z3 * z3
	z7 := z4 * z3
	z8 := z4 * z4
	z9 := z5 * z4
	z11 := z6 * z5

	r := x * z
	r2 := r * r
	r4 := r2 * r2
	r8 := r4 * r4
	r16 := r8 * r8
	r20 := r16 * r4
	r28 := r20 * r8
	xz := x * z

	// γ_π, with the sign of −d(7.1 − π) left out.
	p1 := (n9*z9 + n10*z7) + (n11*z + n12) + (n13*y + n14*y3)
	p2 := (2*n15*z3 + 2*n16) + (2*n17*y + 2*n18*y3) + 2*n19*y17
	p3 := 3*n20*z4 + 3*n21 + 3*n22*y6
	p4 := 4*n23*z5 + 4*n24*z2 + 4*n25*y10
	p5 := 5 * n26 * z8
	p8 := 8*n27*z11 + 8*n28*z6
	hi := z9 * (r20*(21*n29+23*n30*r2) + z*r28*((29*n31+30*n32*r)+r2*(31*n33+32*n34*r)))
	gp := (p1 + x*p2) + x2*(p3+x*p4) + (x4*p5 + x7*p8) + hi

	// (τ − 1.222) γ_τ
	a0 := (-2*n1*z2 - n2*z) + (n4*y + 2*n5*y2) + (3*n6*y3 + 4*n7*y4) + 5*n8*y5
	a1 := (-9*n9*z9 - 7*n10*z7) + (-n11*z + n13*y) + 3*n14*y3
	a2 := (-3*n15*z3 + n17*y) + (3*n18*y3 + 17*n19*y17)
	a3 := -4*n20*z4 + 6*n22*y6
	a4 := -5*n23*z5 - 2*n24*z2 + 10*n25*y10
	a5 := -8 * n26 * z8
	a8 := -11*n27*z11 - 6*n28*z6
	ha := z8 * (r20*xz*(-29*n29-31*n30*r2) + z*r28*xz*((-38*n31-39*n32*r)+r2*(-40*n33-41*n34*r)))
	gt := (a0 + x*a1) + x2*(a2+x*a3) + x4*(a4+x*a5) + (x8*a8 + ha)

	// (τ − 1.222)² γ_ττ
	b0 := (6*n1*z2 + 2*n2*z) + (2*n5*y2 + 6*n6*y3) + (12*n7*y4 + 20*n8*y5)
	b1 := (90*n9*z9 + 56*n10*z7) + (2*n11*z + 6*n14*y3)
	b2 := 12*n15*z3 + (6*n18*y3 + 272*n19*y17)
	b3 := 20*n20*z4 + 30*n22*y6
	b4 := 30*n23*z5 + 6*n24*z2 + 90*n25*y10
	b5 := 72 * n26 * z8
	b8 := 132*n27*z11 + 42*n28*z6
	hb := z8 * (r20*xz*(870*n29+992*n30*r2) + z*r28*xz*((1482*n31+1560*n32*r)+r2*(1640*n33+1722*n34*r)))
	gtt := (b0 + x*b1) + x2*(b2+x*b3) + x4*(b4+x*b5) + (x8*b8 + hb)

	v = -gp * T * (gasConstant / pStar1)
	h = gt * z * (gasConstant * tStar1)
	tz := tau * z
	cp = -gtt * tz * tz * gasConstant
	return v, h, cp
}

// A gibbs holds the dimensionless Gibbs energy γ(π, τ) and its derivatives.
type gibbs struct{ g, gp, gpp, gt, gtt, gpt float64 }

// gibbs1 sums region1Terms for all six.
func gibbs1(p, T float64) (pi, tau float64, d gibbs) {
	pi, tau = p*(1/pStar1), tStar1/T
	x, y := pi0-pi, tau-tau0
	var xs [33]float64 // x^0 … x^32
	var ys [59]float64 // y^−41 … y^17
	powers(xs[:], x)
	powers(ys[41:], y)
	z := 1 / y
	ys[40] = z
	for k := 2; k <= 41; k++ {
		ys[41-k] = ys[41-k/2] * ys[41-(k-k/2)]
	}
	xi, yi := 1/x, z
	for _, c := range &region1Terms {
		i, j := float64(c.i), float64(c.j)
		t := c.n * xs[c.i] * ys[c.j+41]
		tx, ty := -i*xi*t, j*yi*t
		d.g += t
		d.gp += tx
		d.gpp -= (i - 1) * xi * tx
		d.gt += ty
		d.gtt += (j - 1) * yi * ty
		d.gpt += j * yi * tx
	}
	return pi, tau, d
}

// powers fills s with x^0, x^1, … .
func powers(s []float64, x float64) {
	s[0], s[1] = 1, x
	for k := 2; k < len(s); k++ {
		s[k] = s[k/2] * s[k-k/2]
	}
}
