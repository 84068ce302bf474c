package water

import "math"

// Region 2 of IAPWS-IF97: steam.
//
// Source: IAPWS R7-97(2012), section 6.1: ideal-gas part Eq. 16 and Table 10,
// residual part Eq. 17 and Table 11, derived properties Table 12.
//
//	g/(RT) = γ = ln π + Σ n° τ^J° + Σ n π^I (τ − 0.5)^J,  π = p/1 MPa, τ = 540 K/T
var region2Ideal = [9]term{
	{0, 0, -9.6927686500217},
	{0, 1, 1.0086655968018e1},
	{0, -5, -5.608791128302e-3},
	{0, -4, 7.1452738081455e-2},
	{0, -3, -4.0710498223928e-1},
	{0, -2, 1.4240819171444},
	{0, -1, -4.383951131945},
	{0, 2, -2.8408632460772e-1},
	{0, 3, 2.1268463753307e-2},
}

var region2Terms = [43]term{
	{1, 0, -1.7731742473213e-3},
	{1, 1, -1.7834862292358e-2},
	{1, 2, -4.5996013696365e-2},
	{1, 3, -5.7581259083432e-2},
	{1, 6, -5.032527872793e-2},
	{2, 1, -3.3032641670203e-5},
	{2, 2, -1.8948987516315e-4},
	{2, 4, -3.9392777243355e-3},
	{2, 7, -4.3797295650573e-2},
	{2, 36, -2.6674547914087e-5},
	{3, 0, 2.0481737692309e-8},
	{3, 1, 4.3870667284435e-7},
	{3, 3, -3.227767723857e-5},
	{3, 6, -1.5033924542148e-3},
	{3, 35, -4.0668253562649e-2},
	{4, 1, -7.8847309559367e-10},
	{4, 2, 1.2790717852285e-8},
	{4, 3, 4.8225372718507e-7},
	{5, 7, 2.2922076337661e-6},
	{6, 3, -1.6714766451061e-11},
	{6, 16, -2.1171472321355e-3},
	{6, 35, -2.3895741934104e1},
	{7, 0, -5.905956432427e-18},
	{7, 11, -1.2621808899101e-6},
	{7, 25, -3.8946842435739e-2},
	{8, 8, 1.1256211360459e-11},
	{8, 36, -8.2311340897998},
	{9, 13, 1.9809712802088e-8},
	{10, 4, 1.0406965210174e-19},
	{10, 10, -1.0234747095929e-13},
	{10, 14, -1.0018179379511e-9},
	{16, 29, -8.0882908646985e-11},
	{16, 50, 1.0693031879409e-1},
	{18, 57, -3.3662250574171e-1},
	{20, 20, 8.9185845355421e-25},
	{20, 35, 3.0629316876232e-13},
	{20, 48, -4.2002467698208e-6},
	{21, 21, -5.9056029685639e-26},
	{22, 53, 3.7826947613457e-6},
	{23, 39, -1.2768608934681e-15},
	{24, 26, 7.3087610595061e-29},
	{24, 40, 5.5414715350778e-17},
	{24, 58, -9.436970724121e-7},
}

// Reducing quantities of region 2.
const (
	pStar2 = 1e6   // Pa
	tStar2 = 540.0 // K
)

// gibbs2 sums the ideal-gas and the residual part.
func gibbs2(p, T float64) (pi, tau float64, d gibbs) {
	pi, tau = p*(1/pStar2), tStar2/T

	var ts [9]float64 // τ^−5 … τ^3
	powers(ts[5:], tau)
	ti := 1 / tau
	ts[4] = ti
	for k := 2; k <= 5; k++ {
		ts[5-k] = ts[5-k/2] * ts[5-(k-k/2)]
	}
	d.g = math.Log(pi)
	d.gp = 1 / pi
	d.gpp = -d.gp * d.gp
	for _, c := range &region2Ideal {
		j := float64(c.j)
		t := c.n * ts[c.j+5]
		d.g += t
		d.gt += j * ti * t
		d.gtt += j * (j - 1) * ti * ti * t
	}

	y := tau - 0.5
	var ps [25]float64 // π^0 … π^24
	var ys [59]float64 // y^0 … y^58
	powers(ps[:], pi)
	powers(ys[:], y)
	yi := 1 / y
	for _, c := range &region2Terms {
		i, j := float64(c.i), float64(c.j)
		// i is at least 1: n i π^(i−1) y^j needs no division by a small π.
		tp := c.n * i * ps[c.i-1] * ys[c.j]
		t := c.n * ps[c.i] * ys[c.j]
		d.g += t
		d.gp += tp
		d.gpp += (i - 1) * tp / pi
		d.gt += j * yi * t
		d.gtt += j * (j - 1) * yi * yi * t
		d.gpt += j * yi * tp
	}
	return pi, tau, d
}

// region2 returns specific volume (m³/kg), enthalpy (J/kg) and isobaric heat
// capacity (J/(kg·K)) of steam at p (Pa) and T (K), without a check.
func region2(p, T float64) (v, h, cp float64) {
	_, tau, d := gibbs2(p, T)
	v = d.gp * T * (gasConstant / pStar2)
	h = d.gt * (gasConstant * tStar2)
	cp = -gasConstant * tau * tau * d.gtt
	return v, h, cp
}

// enthalpy2 is the enthalpy of region2 alone, in J/kg, up to rounding.
func enthalpy2(p, T float64) float64 {
	pi, tau := p*(1/pStar2), tStar2/T
	ti := 1 / tau
	var ts [9]float64 // τ^−5 … τ^3
	powers(ts[5:], tau)
	ts[4] = ti
	for k := 2; k <= 5; k++ {
		ts[5-k] = ts[5-k/2] * ts[5-(k-k/2)]
	}
	ideal := 0.0
	for i := range region2Ideal {
		c := &region2Ideal[i]
		ideal += float64(c.j) * c.n * ts[c.j+5]
	}
	var ps [25]float64 // π^0 … π^24
	var ys [59]float64 // y^0 … y^58
	powers(ps[:], pi)
	powers(ys[:], tau-0.5)
	residual := 0.0
	for i := range region2Terms {
		c := &region2Terms[i]
		residual += float64(c.j) * c.n * ps[c.i] * ys[c.j]
	}
	return (ti*ideal + residual/(tau-0.5)) * (gasConstant * tStar2)
}
