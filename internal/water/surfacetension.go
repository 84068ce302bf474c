package water

import "math"

// SurfaceTension returns the surface tension of water against its own vapour in
// N/m at T (K).
//
//	σ = B (1 − T/Tc)^1.256 [1 − 0.625 (1 − T/Tc)],  B = 235.8 mN/m
//
// Range: 273.15 K ≤ T ≤ 647.096 K (the critical point, where it is zero);
// outside a [*units.FieldError].
//
// Source: IAPWS R1-76(2014), Revised Release on Surface Tension of Ordinary
// Water Substance.
func SurfaceTension(T float64) (float64, error) {
	if err := checkRange("temperature", T, MinTemperature, criticalTemperature, slackT, "K"); err != nil {
		return 0, err
	}
	t := math.Max(0, 1-T/criticalTemperature)
	return 235.8e-3 * math.Pow(t, 1.256) * (1 - 0.625*t), nil
}
