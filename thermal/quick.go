package thermal

import (
	"math"

	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// FreezeTimes returns the times of [Exposed.Freeze] to 0 °C and to a share of ice of
// at most a half by few points of Gauss's rule instead of a step-by-step solution:
// the same balance, within 0.01 % where the surroundings neither shine nor evaporate,
// for a tenth of the price. ToSolid is left zero.
//
//	t = ∫ C·(T − Ta)/(A·q) d ln(T − Ta) + ∫ m·L/(A·q) dφ
//
// Range: as Exposed.Freeze, share to 0.5; surroundings with radiant heat, wet or
// lying on the ground are refused.
func (e Exposed) FreezeTimes(start units.Temperature, s Surroundings, share units.Ratio) (Freezing, error) {
	if err := all(units.At("part", e.Validate()), between("start", start, coldestWater, units.Celsius(99)), units.At("surroundings", s.Validate()), inside("share", share, 1e-3, 0.5)); err != nil {
		return Freezing{}, err
	}
	if s.Radiant.Given() || s.Wet > 0 || s.Contact > 0 {
		return Freezing{}, refuse("surroundings", "radiant, wet or contact", "air and wind alone; for the others Freeze", units.ErrConflict)
	}
	k, err := sinksOf(s, float64(e.Diameter), float64(e.Emissivity))
	if err != nil {
		return Freezing{}, units.At("surroundings", err)
	}
	if k.Ta >= freezing {
		return Freezing{Never: true}, nil
	}
	const p = 101325.0
	rho, err := water.Density(p, freezing)
	if err != nil {
		return Freezing{}, err
	}
	A, m, metal := float64(e.Area), rho*float64(e.Water), float64(e.Metal)*float64(e.MetalHeat)
	R := 0.0
	if e.Wall > 0 {
		R = 1 / float64(e.Wall)
	}
	leaves := func(T, R float64) (float64, error) {
		Ts, err := k.through(T, R)
		return k.from(Ts).total(), err
	}
	q0, err := leaves(freezing, R)
	if err != nil {
		return Freezing{}, err
	}
	if !(q0 > 0) {
		return Freezing{Never: true}, nil
	}
	f := Freezing{Heat: units.Power(A * q0)}
	if T0 := start.Kelvin(); T0 > freezing {
		lo, hi := math.Log(freezing-k.Ta), math.Log(T0-k.Ta)
		sum := 0.0
		for i, x := range gaussAt {
			T := k.Ta + math.Exp(lo+(hi-lo)*x)
			q, err := leaves(T, R)
			if err != nil {
				return Freezing{}, err
			}
			cp, err := water.HeatCapacity(p, math.Min(math.Max(T, freezing), 372.9))
			if err != nil {
				return Freezing{}, err
			}
			sum += gaussWeight[i] * (m*cp + metal) * (T - k.Ta) / (A * q)
		}
		f.ToFreezing = units.Duration(sum * (hi - lo))
	}
	l := float64(e.Water) / (math.Pi / 4 * float64(e.Bore) * float64(e.Bore))
	sum := 0.0
	for i, x := range gaussAt {
		q, err := leaves(freezing, R-A*math.Log1p(-float64(share)*x)/(4*math.Pi*iceConductivity*l))
		if err != nil {
			return Freezing{}, err
		}
		if !(q > 0) {
			return Freezing{Never: true}, nil
		}
		sum += gaussWeight[i] * m * fusion / (A * q)
	}
	f.ToShare = f.ToFreezing + units.Duration(sum*float64(share))
	if !finite(float64(f.ToShare)) || f.ToShare > mostDelay {
		return Freezing{Never: true}, nil
	}
	return f, nil
}

// Points and weights of Gauss's rule with three points on 0 to 1.
var (
	gaussAt     = [...]float64{0.5 - 0.38729833462074168852, 0.5, 0.5 + 0.38729833462074168852}
	gaussWeight = [...]float64{5.0 / 18, 8.0 / 18, 5.0 / 18}
)

// End returns what [ShutIn.Soak] ends at when nothing is lost to the surroundings:
// the peak of temperature and pressure by the balance of heat alone, without the way
// there. Time, After and Vented are left zero.
//
//	Ms·cs·(Ts − T) = m·(h(T) − h(Tw))
//
// Range: as ShutIn.Soak; a loss is refused, since the peak then depends on time.
func (s ShutIn) End() (Soak, error) {
	if err := s.Validate(); err != nil {
		return Soak{}, err
	}
	if s.Loss > 0 {
		return Soak{}, refuse("loss", s.Loss.String(), "no loss; with one see Soak", units.ErrConflict)
	}
	p0, Tw0, Ts0 := float64(s.Pressure), s.CoilTemperature.Kelvin(), s.MetalTemperature.Kelvin()
	rho, err := water.Density(p0, Tw0)
	if err != nil {
		return Soak{}, units.At("coilTemperature", err)
	}
	r := Soak{Peak: s.CoilTemperature, Highest: s.Pressure}
	if Ts0 <= Tw0 {
		r.Even = true
		return r, nil
	}
	m := rho * float64(s.Coil)
	pHeat := math.Max(p0, 17e6) // as Soak: one smooth liquid
	if boils, ok := boilingAt(p0); !ok || Ts0 < boils {
		pHeat = p0
	}
	h0, err := water.Enthalpy(pHeat, Tw0)
	if err != nil {
		return Soak{}, units.At("coilTemperature", err)
	}
	peak, err := s.closes(m, pHeat, h0)
	if err != nil {
		return Soak{}, err
	}
	r.Peak = units.Kelvin(peak)
	v := s.vessel(m)
	p, off, err := v.pressure(peak)
	if err != nil {
		return Soak{}, units.At("coilTemperature", err)
	}
	r.Highest, r.OffScale = units.AbsolutePressure(p), off
	r.Lifts = s.Relief > 0 && p > float64(s.Relief)
	if r.Lifts {
		p = float64(s.Relief)
	}
	if boils, ok := boilingAt(p); ok {
		r.Boils = peak > boils
	}
	return r, nil
}
