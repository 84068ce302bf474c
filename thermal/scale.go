package thermal

import (
	"math"

	"example.com/washrig/units"
)

// A Scaling is what makes a coil scale up.
type Scaling struct {
	// Hardness is calcium carbonate in the water by mass, 1 mg/L being 1e-6; 1
	// grain per US gallon is 17.12e-6. What recovered water brings along, the
	// build-up factor included, is the caller's.
	Hardness units.Ratio
	// Deposited is the share of it that stays in the coil. It depends on alkalinity,
	// pH and temperature and is rarely known; see [TypicalDeposit].
	Deposited units.Ratio
	Flow      units.VolumeFlow
	Bore      units.Length // of the clean coil
	Length    units.Length // over which it scales, the hot part or all
}

// A Band is a low, a usual and a high value with where they come from.
type Band struct {
	Low, Usual, High units.Ratio
	Source           string
}

// TypicalDeposit returns the band of the share of hardness that stays in a coil at an
// outlet temperature. It is an estimate without a publication behind it: carbonate
// hardly falls out of cold water and does so readily above 60 °C to 70 °C.
func TypicalDeposit(outlet units.Temperature) (Band, error) {
	if err := between("outlet", outlet, coldestWater, hottestWater); err != nil {
		return Band{}, err
	}
	const source = "common practice: estimate, no publication; soften where it matters"
	switch c := outlet.Celsius(); {
	case c < 45:
		return Band{0, 0.002, 0.01, source}, nil
	case c < 65:
		return Band{0.002, 0.01, 0.05, source}, nil
	case c < 85:
		return Band{0.01, 0.03, 0.10, source}, nil
	}
	return Band{0.02, 0.06, 0.20, source}, nil
}

// scaleDensity of calcium carbonate as it lies in a coil, kg/m³: calcite 2710, less
// a tenth of pores.
const scaleDensity = 2440.0

// A ScaleEstimate is how long a coil takes to scale. It is rough: within a factor of
// two where the deposited share is known, which it rarely is.
type ScaleEstimate struct {
	Thickness units.Length   // that makes the pressure loss asked for
	Mass      units.Mass     // of scale then
	Time      units.Duration // of hot running until then
	Never     bool           // nothing is deposited; Time is zero
}

// TimeToLoss returns how long hot running takes until the pressure loss of the coil
// has grown from its clean loss by rise.
//
//	Δp ∝ d^−5:  d = d0·(1 + rise/clean)^(−1/5),  s = (d0 − d)/2
//	t = ρs·π·(d0 − s)·s·L/(ρ·Q·H·x)
//
// s is the thickness of scale, ρ 1,000 kg/m³ for water, H the hardness by mass and x the
// share deposited. The
// roughness of scale and its uneven growth, both of which raise the loss earlier, are
// not in it.
//
// Range: hardness to 5,000 mg/L, bore 1 mm to 200 mm, rise up to 100 times clean.
//
// Source: mass balance; fifth power from the Darcy–Weisbach equation at constant
// friction factor. Density of the scale, 2,440 kg/m³, common practice.
func (s Scaling) TimeToLoss(clean, rise units.Pressure) (ScaleEstimate, error) {
	if err := all(
		inside("hardness", s.Hardness, 0, 0.005), share("deposited", s.Deposited),
		inside("flow", s.Flow, 0, mostFlow),
		inside("bore", s.Bore, 1*units.Millimeter, 200*units.Millimeter),
		inside("length", s.Length, 0.1*units.Meter, 2000*units.Meter),
		inside("clean", clean, 0.01*units.PSI, 5000*units.PSI), inside("rise", rise, 0, 5000*units.PSI),
	); err != nil {
		return ScaleEstimate{}, err
	}
	if rise > 100*clean {
		return ScaleEstimate{}, refuse("rise", rise.String(), "at most 100 times the clean loss", units.ErrRange)
	}
	d, L := float64(s.Bore), float64(s.Length)
	thick := 0.5 * d * -math.Expm1(-0.2*math.Log1p(float64(rise/clean)))
	mass := scaleDensity * math.Pi * (d - thick) * thick * L
	e := ScaleEstimate{Thickness: units.Length(thick), Mass: units.Mass(mass)}
	// Water of 1000 kg/m³: the estimate does not feel the difference.
	rate := 1000 * float64(s.Flow) * float64(s.Hardness) * float64(s.Deposited)
	t := mass / rate
	if rate == 0 || !finite(t) {
		e.Never = mass > 0
		return e, nil
	}
	e.Time = units.Duration(t)
	return e, nil
}
