package hydraulics

import "math"

// minHelix is the least diameter of a helix, in bores of its tube.
const minHelix = 1.5

// coilExcess is Mishra and Gupta's turbulent excess: f − f_straight = 0.03 √(d/D).
const coilExcess = 0.03

// CoilFrictionFactor returns the Darcy friction factor of flow in a helical coil.
// It is the law every solver of this package uses.
//
//	laminar    f = (64/Re) [1 + 0.033 (log10 He)⁴]   He = Re √(d/D); no bracket where He ≤ 1
//	turbulent  f = f_straight(Re, k) + 0.03 √(d/D)
//
// Re is the Reynolds number, k the relative roughness, ratio = d/D the bore over
// the diameter of the helix. f_straight is [FrictionFactor], so that roughness,
// which the sources do not treat, acts as in a straight tube.
//
// The laminar form ends at Re₁ = 2000 (1 + 8.6 (d/D)^0.45), Schmidt's critical
// number scaled so that a straight tube ends at 2000, and the turbulent form
// begins at 2 Re₁; between them runs a cubic in Re with the same values and slopes
// at its ends. f Re² rises with Re throughout.
//
// Range: 0 ≤ d/D ≤ 0.3 and the ranges of FrictionFactor; the turbulent term was
// measured in smooth coils up to Re = 1e5. At d/D = 0 this is FrictionFactor.
//
// Error: reputable turbulent correlations differ by up to 10 % among
// themselves. With a small pitch nothing is to be corrected; the diameter of
// the helix is centre to centre.
//
// Source: P. Mishra and S. N. Gupta, "Momentum transfer in curved pipes",
// Ind. Eng. Chem. Process Des. Dev. 18(1), 1979, pp. 130–142; E. F. Schmidt,
// "Wärmeübergang und Druckverlust in Rohrschlangen", Chem. Ing. Tech. 39(13),
// 1967, pp. 781–789.
//
// Special cases: NaN if an argument is NaN, negative or, for d/D, above 1.
func CoilFrictionFactor(Re, k, ratio float64) float64 {
	if !(ratio >= 0 && ratio <= 1) {
		return math.NaN()
	}
	if ratio == 0 || !(Re > 0) {
		return FrictionFactor(Re, k)
	}
	if !(k >= 0 && k <= 1) {
		return math.NaN()
	}
	curve := math.Sqrt(ratio)
	switch re1 := coilLaminarEnd(curve); {
	case Re <= re1:
		f, _ := coilLaminar(Re, curve)
		return f
	case Re < 2*re1:
		b := coilBridge(k, curve)
		f, _ := b.at(Re)
		return f
	}
	f, _ := colebrook(Re, k)
	return f + coilExcess*curve
}

// coilLaminarEnd returns Re₁; curve = √(d/D).
func coilLaminarEnd(curve float64) float64 {
	return laminarEnd * (1 + 8.6*math.Pow(curve, 0.9))
}

// coilLaminar returns the laminar factor and its derivative.
func coilLaminar(Re, curve float64) (f, slope float64) {
	f = 64 / Re
	He := Re * curve
	if He <= 1 {
		return f, -f / Re
	}
	l := math.Log10(He)
	l3 := l * l * l
	return f * (1 + 0.033*l3*l), f / Re * (4*0.033/math.Ln10*l3 - 1 - 0.033*l3*l)
}

func coilBridge(k, curve float64) bridge {
	re := coilLaminarEnd(curve)
	f0, s0 := coilLaminar(re, curve)
	f1, u := colebrook(2*re, k)
	return newBridge(re, f0, s0, 2*re, f1+coilExcess*curve, -u*f1/re)
}
