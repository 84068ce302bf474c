package electrical

import "example.com/washrig/units"

// PumpCycles returns how often an hour a pump starts that fills a vessel on a
// pressure switch or a float while a smaller flow is drawn from it:
//
//	f = 1 / (V/q + V/(Q − q)) = q·(Q − q) / (V·Q)
//
// V is the volume between switching off and on, q what is drawn and Q what the
// pump delivers. Zero where nothing is drawn, and where q ≥ Q, since the pump
// then never stops. Most is Q/(4·V), at q = Q/2.
//
// The result is a frequency; In(units.Hertz) times 3,600 is starts an hour.
//
// Errors: units.ErrMissing and units.ErrRange, paths "volume", "drawn",
// "delivery".
//
// Source: balance of volume; sump sizing T = 4·V/Q of pump handbooks.
func PumpCycles(volume units.Volume, drawn, delivery units.VolumeFlow) (units.Frequency, error) {
	var p problems
	p.required("volume", float64(volume), 1e-6, 1e3, inCubicMeters)
	p.within("drawn", float64(drawn), 0, 10, inFlow)
	p.required("delivery", float64(delivery), 1e-9, 10, inFlow)
	if err := p.err(); err != nil {
		return 0, err
	}
	if drawn >= delivery {
		return 0, nil
	}
	return units.Frequency(cycles(float64(volume), float64(drawn), float64(delivery))), nil
}

func cycles(v, q, Q float64) float64 { return q * (1 - q/Q) / v }
