package hydraulics

import "math"

// The explicit correlations below are offered for comparison with other work. No
// solver of this package uses them; [FrictionFactor] is exact and costs less.

// SwameeJain returns the Darcy friction factor of turbulent flow in a round pipe.
//
//	f = 0.25 / [log10( k/3.7 + 5.74/Re^0.9 )]²
//
// Re is the Reynolds number and k the relative roughness. Some programs write
// (6.97/Re)^0.9, which is 5.7397/Re^0.9 and differs in the fifth digit.
//
// Range: 5e3 ≤ Re ≤ 1e8, 1e-6 ≤ k ≤ 1e-2; outside it the value is returned
// unguarded.
//
// Error: usually quoted as 1 % of Colebrook–White. Over the stated range it is at
// most 2.83 %, at Re = 5e3 and k = 1e-2 (TestExplicit_sweep).
//
// Source: P. K. Swamee and A. K. Jain, "Explicit equations for pipe-flow problems",
// J. Hydraulics Div. ASCE 102(5), 1976, pp. 657–664.
//
// Special cases: NaN if either argument is NaN.
func SwameeJain(Re, k float64) float64 {
	l := math.Log10(k/3.7 + 5.74/math.Pow(Re, 0.9))
	return 0.25 / (l * l)
}

// Haaland returns the Darcy friction factor of turbulent flow in a round pipe.
//
//	1/√f = −1.8 log10[ (k/3.7)^1.11 + 6.9/Re ]
//
// Range: 4e3 ≤ Re ≤ 1e8, 1e-6 ≤ k ≤ 5e-2; outside it the value is returned
// unguarded.
//
// Error: at most 1.5 % of Colebrook–White over the stated range
// (TestExplicit_sweep).
//
// Source: S. E. Haaland, "Simple and explicit formulas for the friction factor in
// turbulent pipe flow", J. Fluids Eng. 105(1), 1983, pp. 89–90.
//
// Special cases: NaN if either argument is NaN.
func Haaland(Re, k float64) float64 {
	x := 1.8 * math.Log10(math.Pow(k/3.7, 1.11)+6.9/Re)
	return 1 / (x * x)
}

// Churchill returns the Darcy friction factor of laminar, transitional and
// turbulent flow in a round pipe by one formula.
//
//	f = 8 [ (8/Re)¹² + (A + B)^−1.5 ]^(1/12)
//	A = { −2.457 ln[ (7/Re)^0.9 + 0.27 k ] }¹⁶
//	B = (37530/Re)¹⁶
//
// Range: all Re > 0, 0 ≤ k ≤ 5e-2.
//
// Error: below Re = 1000 within 1e-9 of 64/Re; for 4e3 ≤ Re ≤ 1e8 and
// 1e-6 ≤ k ≤ 5e-2 at most 3.16 % of Colebrook–White, at Re = 4.2e3 and k = 1.6e-2
// (TestExplicit_sweep). Between 2100 and 4000 it follows one of many possible
// paths, as [FrictionFactor] does another.
//
// Source: S. W. Churchill, "Friction-factor equation spans all fluid-flow
// regimes", Chem. Eng. 84(24), 1977, pp. 91–92.
//
// Special cases: NaN if either argument is NaN.
func Churchill(Re, k float64) float64 {
	A := math.Pow(-2.457*math.Log(math.Pow(7/Re, 0.9)+0.27*k), 16)
	B := math.Pow(37530/Re, 16)
	return 8 * math.Pow(math.Pow(8/Re, 12)+math.Pow(A+B, -1.5), 1./12)
}

// Serghides returns the Darcy friction factor of turbulent flow in a round pipe by
// Steffensen's acceleration of three evaluations of Colebrook's equation.
//
//	1/√f = A − (B−A)²/(C−2B+A)
//	A = −2 log10( k/3.7 + 12/Re ),  B, C = −2 log10( k/3.7 + 2.51 (A, B)/Re )
//
// Range: Re ≥ 4e3, 0 ≤ k ≤ 5e-2.
//
// Error: at most 0.0032 % of Colebrook–White for 4e3 ≤ Re ≤ 1e8
// (TestExplicit_sweep).
//
// Source: T. K. Serghides, "Estimate friction factor accurately", Chem. Eng. 91(5),
// 1984, pp. 63–64.
//
// Special cases: NaN if either argument is NaN.
func Serghides(Re, k float64) float64 {
	A := -2 * math.Log10(k/3.7+12/Re)
	B := -2 * math.Log10(k/3.7+2.51*A/Re)
	C := -2 * math.Log10(k/3.7+2.51*B/Re)
	x := A
	if d := C - 2*B + A; d != 0 { // all three agree where the pipe is fully rough
		x -= (B - A) * (B - A) / d
	}
	return 1 / (x * x)
}

// Chen returns the Darcy friction factor of turbulent flow in a round pipe.
//
//	1/√f = −2 log10[ k/3.7065 − (5.0452/Re) log10( k^1.1098/2.8257 + (5.8506/Re)^0.8981 ) ]
//
// The innermost constant is printed as 5.8506/Re^0.8981, which is
// (7.149/Re)^0.8981; the latter is used.
//
// Range: 4e3 ≤ Re ≤ 4e8, 1e-7 ≤ k ≤ 5e-2.
//
// Error: at most 0.33 % of Colebrook–White over the stated range
// (TestExplicit_sweep).
//
// Source: N. H. Chen, "An explicit equation for friction factor in pipe", Ind. Eng.
// Chem. Fundam. 18(3), 1979, pp. 296–297.
//
// Special cases: NaN if either argument is NaN.
func Chen(Re, k float64) float64 {
	A := math.Pow(k, 1.1098)/2.8257 + math.Pow(7.149/Re, 0.8981)
	x := -2 * math.Log10(k/3.7065-5.0452/Re*math.Log10(A))
	return 1 / (x * x)
}

// Blasius returns the Darcy friction factor of turbulent flow in a smooth pipe.
//
//	f = 0.3164 / Re^0.25
//
// Range: 4e3 ≤ Re ≤ 1e5.
//
// Error: at most 2.84 % of the smooth Colebrook–White law, which is Prandtl's, at
// Re = 1.7e4; above the stated range it falls ever further below (TestExplicit_sweep).
//
// Source: H. Blasius, "Das Ähnlichkeitsgesetz bei Reibungsvorgängen in
// Flüssigkeiten", Mitt. Forschungsarb. Ing.-Wes. 131, 1913.
//
// Special cases: NaN if Re is NaN or negative.
func Blasius(Re float64) float64 { return 0.3164 / math.Sqrt(math.Sqrt(Re)) }
