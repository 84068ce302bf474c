package hydraulics

import "math"

// The correlations below are offered for comparison with other work; no solver of
// this package uses them, see [CoilFrictionFactor]. In all of them Re is the
// Reynolds number, ratio = d/D the bore over the diameter of the helix, De =
// Re √(d/D) Dean's number, and f the Darcy factor.

// CoilCriticalIto returns the Reynolds number at which flow in a coil turns
// turbulent.
//
//	Re = 20000 (d/D)^0.32
//
// Range: 0.00116 < d/D < 0.067; it falls to zero for a straight tube.
//
// Source: H. Ito, "Friction factors for turbulent flow in curved pipes", J. Basic
// Eng. (Trans. ASME) 81, 1959, pp. 123–134.
func CoilCriticalIto(ratio float64) float64 { return 20000 * math.Pow(ratio, 0.32) }

// CoilCriticalSchmidt returns the Reynolds number at which flow in a coil turns
// turbulent.
//
//	Re = 2300 [1 + 8.6 (d/D)^0.45]
//
// Range: d/D < 0.14; it falls to 2300 for a straight tube.
//
// Source: E. F. Schmidt, "Wärmeübergang und Druckverlust in Rohrschlangen", Chem.
// Ing. Tech. 39(13), 1967, pp. 781–789.
func CoilCriticalSchmidt(ratio float64) float64 { return 2300 * (1 + 8.6*math.Pow(ratio, 0.45)) }

// CoilWhite returns the friction factor of laminar flow in a coil.
//
//	f = (64/Re) / { 1 − [ 1 − (11.6/De)^0.45 ]^(1/0.45) },  De > 11.6, else 64/Re
//
// Range: 11.6 < De < 2000.
//
// Source: C. M. White, "Streamline flow through curved pipes", Proc. R. Soc. A 123,
// 1929, pp. 645–663.
func CoilWhite(Re, ratio float64) float64 {
	De := Re * math.Sqrt(ratio)
	if De <= 11.6 {
		return 64 / Re
	}
	return 64 / Re / (1 - math.Pow(1-math.Pow(11.6/De, 0.45), 1/0.45))
}

// CoilMoriNakayamaLaminar returns the friction factor of laminar flow in a coil.
//
//	f = (64/Re) · 0.108 √De / (1 − 3.253/√De)
//
// Range: 100 < De < 2000. The factor has its least value, 1.4053, at De = 42.328
// and is held there below.
//
// Source: Y. Mori and W. Nakayama, "Study on forced convective heat transfer in
// curved pipes, 1st report", Int. J. Heat Mass Transfer 8(1), 1965, pp. 67–82.
func CoilMoriNakayamaLaminar(Re, ratio float64) float64 {
	const least = 4 * 3.253 * 3.253 // De where the derivative of √De/(1 − c/√De) is zero
	De := math.Max(Re*math.Sqrt(ratio), least)
	r := math.Sqrt(De)
	return 64 / Re * 0.108 * r / (1 - 3.253/r)
}

// CoilSchmidtLaminar returns the friction factor of laminar flow in a coil.
//
//	f = (64/Re) [ 1 + 0.14 (d/D)^0.97 Re^(1 − 0.644 (d/D)^0.312) ]
//
// Range: 100 < Re < [CoilCriticalSchmidt].
//
// Source: as CoilCriticalSchmidt.
func CoilSchmidtLaminar(Re, ratio float64) float64 {
	return 64 / Re * (1 + 0.14*math.Pow(ratio, 0.97)*math.Pow(Re, 1-0.644*math.Pow(ratio, 0.312)))
}

// CoilMishraGuptaLaminar returns the friction factor of laminar flow in a coil, the
// laminar part of [CoilFrictionFactor].
//
//	f = (64/Re) [ 1 + 0.033 (log10 De)⁴ ],  De > 1, else 64/Re
//
// Range: 1 < De < 3000, 0.003 < d/D < 0.15.
//
// Source: P. Mishra and S. N. Gupta, "Momentum transfer in curved pipes", Ind. Eng.
// Chem. Process Des. Dev. 18(1), 1979, pp. 130–137.
func CoilMishraGuptaLaminar(Re, ratio float64) float64 {
	f, _ := coilLaminar(Re, math.Sqrt(ratio))
	return f
}

// CoilIto returns the friction factor of turbulent flow in a smooth coil.
//
//	f = 0.304 Re^−0.25 + 0.029 √(d/D)
//
// Range: 0.034 < Re (d/D)² < 300.
//
// Source: as [CoilCriticalIto].
func CoilIto(Re, ratio float64) float64 {
	return 0.304/math.Sqrt(math.Sqrt(Re)) + 0.029*math.Sqrt(ratio)
}

// CoilMishraGupta returns the friction factor of turbulent flow in a smooth coil.
//
//	f = 0.3164 Re^−0.25 + 0.03 √(d/D)
//
// Range: 4500 < Re < 1e5, 0.003 < d/D < 0.15. With the exact law of the straight
// tube in place of [Blasius] it is the turbulent part of [CoilFrictionFactor].
//
// Source: as [CoilMishraGuptaLaminar].
func CoilMishraGupta(Re, ratio float64) float64 {
	return Blasius(Re) + coilExcess*math.Sqrt(ratio)
}

// CoilSchmidt returns the friction factor of turbulent flow in a coil as a multiple
// of that of the straight tube.
//
//	f = f_s [ 1 + 28800/Re · (d/D)^0.62 ]                            Re < 22000
//	f = f_s [ 1 + 0.0823 (1 + d/D) (d/D)^0.53 Re^0.25 ]     22000 ≤ Re < 150000
//
// f_s is [FrictionFactor] at the relative roughness k. The two forms leave a step at
// 22000.
//
// Source: as [CoilCriticalSchmidt].
func CoilSchmidt(Re, k, ratio float64) float64 {
	f := FrictionFactor(Re, k)
	if Re < 22000 {
		return f * (1 + 28800/Re*math.Pow(ratio, 0.62))
	}
	return f * (1 + 0.0823*(1+ratio)*math.Pow(ratio, 0.53)*math.Sqrt(math.Sqrt(Re)))
}

// CoilMoriNakayama returns the friction factor of turbulent flow in a smooth coil.
//
//	f = 0.3 √(d/D) z (1 + 0.112 z),  z = [ Re (d/D)² ]^−0.2
//
// Range: from transition to Re = 6.5e5 √(d/D). It does not tend to the straight
// tube.
//
// Source: Y. Mori and W. Nakayama, "Study of forced convective heat transfer in
// curved pipes, 2nd report, turbulent region", Int. J. Heat Mass Transfer 10(1),
// 1967, pp. 37–59.
func CoilMoriNakayama(Re, ratio float64) float64 {
	z := math.Pow(Re*ratio*ratio, -0.2)
	return 0.3 * math.Sqrt(ratio) * z * (1 + 0.112*z)
}

// CoilMandalNigam returns the friction factor of turbulent flow in a coil as a
// multiple of that of the straight tube.
//
//	f = f_s [ 1 + 0.03 De^0.27 ]
//
// f_s is [FrictionFactor] at the relative roughness k.
//
// Range: 2500 < De < 15000.
//
// Source: M. M. Mandal and K. D. P. Nigam, "Experimental study on pressure drop and
// heat transfer of turbulent flow in tube in tube helical heat exchanger", Ind.
// Eng. Chem. Res. 48(20), 2009, pp. 9318–9324.
func CoilMandalNigam(Re, k, ratio float64) float64 {
	return FrictionFactor(Re, k) * (1 + 0.03*math.Pow(Re*math.Sqrt(ratio), 0.27))
}
