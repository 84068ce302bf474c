package thermal

import "math"

// CounterflowEffectiveness returns the heat exchanged in counter-flow as a share of
// the most possible.
//
//	ε = [1 − e^(−N(1−C))] / [1 − C e^(−N(1−C))],  ε = N/(1+N) for C = 1
//
// N = UA/Cmin is the number of transfer units and C = Cmin/Cmax the ratio of heat
// capacity rates, 0 ≤ C ≤ 1. C = 0 (a side that boils, or far the larger) gives
// 1 − e^(−N).
//
// Source: W. M. Kays and A. L. London, Compact Heat Exchangers, 3rd edition,
// McGraw-Hill 1984, chapter 2.
//
// Special cases: NaN if N < 0, C outside [0, 1] or an argument is NaN.
func CounterflowEffectiveness(N, C float64) float64 {
	if !(N >= 0 && C >= 0 && C <= 1) {
		return math.NaN()
	}
	if C == 1 {
		return N / (1 + N)
	}
	e := -math.Expm1(-N * (1 - C))
	return e / (1 - C + C*e)
}

// CounterflowUnits is the inverse of [CounterflowEffectiveness]: the number of
// transfer units that reach ε.
//
//	N = ln[(1 − ε·C)/(1 − ε)]/(1 − C),  N = ε/(1 − ε) for C = 1
//
// Special cases: NaN if ε is outside [0, 1), C outside [0, 1] or an argument is
// NaN.
func CounterflowUnits(effectiveness, C float64) float64 {
	e := effectiveness
	if !(e >= 0 && e < 1 && C >= 0 && C <= 1) {
		return math.NaN()
	}
	if C == 1 {
		return e / (1 - e)
	}
	return math.Log1p(e*(1-C)/(1-e)) / (1 - C)
}

// ParallelEffectiveness is [CounterflowEffectiveness] of two streams that run the
// same way.
//
//	ε = [1 − e^(−N(1+C))]/(1 + C)
//
// Source and special cases as CounterflowEffectiveness.
func ParallelEffectiveness(N, C float64) float64 {
	if !(N >= 0 && C >= 0 && C <= 1) {
		return math.NaN()
	}
	return -math.Expm1(-N*(1+C)) / (1 + C)
}

// LogMeanDifference returns the logarithmic mean of the temperature differences at
// the two ends of an exchanger, in the unit given.
//
//	ΔT = (ΔT1 − ΔT2)/ln(ΔT1/ΔT2),  ΔT1 if they are equal
//
// It belongs to the same exchanger as the effectiveness: UA·ΔT is the heat.
//
// Special cases: NaN if a difference is not above 0 or is NaN.
func LogMeanDifference(d1, d2 float64) float64 {
	if !(d1 > 0 && d2 > 0) {
		return math.NaN()
	}
	r := (d1 - d2) / d2
	if math.Abs(r) < 1e-9 {
		return (d1 + d2) / 2
	}
	return (d1 - d2) / math.Log1p(r)
}
