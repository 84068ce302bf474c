package thermal

import (
	"math"

	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// FreezeTimes returns the times of [Exposed.Freeze] to 0 °C and to a share of ice of
// at most a half by few points of Gauss's rule instead of a step-by-step solution:
// the same balance, within 0.01 % where the surroundings neither shine nor evaporate,
// for a thirtieth of the price. ToSolid is left zero.
//
//	t = ∫ C·(T − Ta)/(A·q) d ln(T − Ta) + ∫ m·L/(A·q) dφ
//
// The coefficient outside, q/(Ts − Ta), is computed at a few temperatures of the surface
// and interpolated over ln(Ts − Ta) between them.
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
	// Resistance of all the ice over the share of it, as ln(1 − φ) is near −φ.
	l := float64(e.Water) / (math.Pi / 4 * float64(e.Bore) * float64(e.Bore))
	ice := A / (4 * math.Pi * iceConductivity * l)

	// A warmer surface has the greater coefficient: the surface is between where that of
	// the warmest water would bring it behind all the ice, and where that of this end
	// would bring it without.
	T0 := math.Max(start.Kelvin(), freezing)
	most := k.coefficient(T0 - k.Ta)
	lo := (freezing - k.Ta) / (1 + (R-ice*math.Log1p(-float64(share)))*most)
	hi := T0 - k.Ta
	if R > 0 {
		hi /= 1 + R*k.coefficient(lo)
	}
	o := k.outsideOver(lo, hi)
	u0 := math.Log(freezing - k.Ta)
	q0 := o.through(u0, R) * (freezing - k.Ta)
	if !(q0 > 0) {
		return Freezing{Never: true}, nil
	}
	f := Freezing{Heat: units.Power(A * q0)}
	if T0 > freezing {
		lo, hi := u0, math.Log(T0-k.Ta)
		sum := 0.0
		for i, x := range gaussAt {
			u := lo + (hi-lo)*x
			h := o.through(u, R)
			cp, err := water.HeatCapacity(p, math.Min(math.Max(k.Ta+math.Exp(u), freezing), 372.9))
			if err != nil {
				return Freezing{}, err
			}
			sum += gaussWeight[i] * (m*cp + metal) / (A * h)
		}
		f.ToFreezing = units.Duration(sum * (hi - lo))
	}
	sum := 0.0
	for i, x := range gaussAt {
		h := o.through(u0, R-ice*math.Log1p(-float64(share)*x))
		if !(h > 0) {
			return Freezing{Never: true}, nil
		}
		sum += gaussWeight[i] * m * fusion / (A * h * (freezing - k.Ta))
	}
	f.ToShare = f.ToFreezing + units.Duration(sum*float64(share))
	if !finite(float64(f.ToShare)) || f.ToShare > mostDelay {
		return Freezing{Never: true}, nil
	}
	return f, nil
}

// An outsideLine is the coefficient from a surface to its surroundings, W/(m²·K), over
// the logarithm of how much warmer it is: a polynomial.
type outsideLine struct {
	mid, half float64
	n         int                    // points
	c         [outsidePoints]float64 // of the powers
}

// outsidePoints is the most points that an outsideLine has.
const outsidePoints = 9

// outsideOver is the coefficient of surfaces that are between lo and hi warmer than the
// air. It needs surroundings of the air's temperature.
func (k *sinks) outsideOver(lo, hi float64) (o outsideLine) {
	u, v := math.Log(lo), math.Log(hi)
	o.mid, o.half = 0.5*(u+v), math.Max(0.5*(v-u), 1e-6)
	o.n = outsidePoints
	switch { // TestOutsideLine
	case o.half < 0.2:
		o.n = 4
	case o.half < 0.4:
		o.n = 5
	case o.half < 0.8:
		o.n = 6
	case o.half < 1.3:
		o.n = 7
	}
	fit := &outsideFits[o.n]
	for i := range o.n {
		h := k.coefficient(math.Exp(o.mid + o.half*fit.at[i]))
		for j := range o.n {
			o.c[j] += fit.power[j][i] * h
		}
	}
	return o
}

// outsideFits are the polynomials through any number of points up to outsidePoints.
var outsideFits = func() (f [outsidePoints + 1]fitting) {
	for n := range f {
		f[n] = fittingThrough(n)
	}
	return f
}()

// coefficient of a surface that is d warmer than the air, W/(m²·K).
func (k *sinks) coefficient(d float64) float64 { return k.from(k.Ta+d).total() / d }

// through is the coefficient from what is e^u warmer than the air through a resistance R
// to the air: h/(1 + R·h) with the h of the surface, whose ln(Ts − Ta) is u − ln(1 + R·h).
func (o *outsideLine) through(u, R float64) float64 {
	n := o.n - 1
	x, h := o.mid, 0.0
	if R == 0 {
		x = u
	}
	for range 20 {
		t := (x - o.mid) / o.half
		slope := 0.0
		h = o.c[n]
		for i := n - 1; i >= 0; i-- {
			slope = slope*t + h
			h = h*t + o.c[i]
		}
		if R == 0 {
			break // x is u
		}
		step := (x - u + math.Log1p(R*h)) / (1 + R*slope/o.half/(1+R*h))
		x = math.Min(math.Max(x-step, o.mid-1.5*o.half), o.mid+1.5*o.half)
		if math.Abs(step) < 1e-3 { // the rest is its square, times how h bends
			h -= slope / o.half * step
			break
		}
	}
	return h / (1 + R*h)
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
