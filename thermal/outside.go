package thermal

import (
	"math"

	"example.com/washrig/internal/air"
	"example.com/washrig/internal/root"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// Surroundings are what a hose, a coil or a pump head loses heat to.
type Surroundings struct {
	Air  units.Temperature
	Site units.AbsolutePressure // of the air: thin air cools less
	Wind units.Velocity         // across the part, zero in still air; road speed while driving
	// Radiant is the temperature of what the part sees, the sky included; not
	// given, it is that of the air.
	Radiant units.Temperature
	// Wet is the share of the surface that is wet and evaporates, Humidity the
	// relative humidity of the air, which matters only then.
	Wet, Humidity units.Ratio
	// Contact is the share of the surface that lies on the ground, Ground its
	// temperature and ContactCoefficient the heat transfer there, both required
	// with it. Wet pavement under a hose takes up some 50 to 200 W/(m²·K).
	Contact            units.Ratio
	Ground             units.Temperature
	ContactCoefficient units.HeatTransferCoefficient
}

// Validate reports every field that cannot be used.
func (s Surroundings) Validate() error {
	err := all(
		between("air", s.Air, coldestAir, hottestAir),
		sitePressure("site", s.Site),
		inside("wind", s.Wind, 0, 60*units.MeterPerSecond),
		share("wet", s.Wet), share("humidity", s.Humidity), share("contact", s.Contact),
	)
	if s.Radiant.Given() {
		err = all(err, between("radiant", s.Radiant, units.Kelvin(150), units.Celsius(100)))
	}
	if s.Contact > 0 {
		err = all(err, between("ground", s.Ground, coldestAir, units.Celsius(90)),
			inside("contactCoefficient", s.ContactCoefficient, 0.1, 1e4))
	}
	return err
}

// sinks are Surroundings as numbers, in SI units.
type sinks struct {
	Ta, p, wind, Tr    float64
	wet, pv            float64 // wet share, partial pressure of vapour in Pa
	contact, Tg, hg    float64
	diameter, emission float64 // of the part
}

// sinksOf needs a checked s.
func sinksOf(s Surroundings, diameter, emissivity float64) (sinks, error) {
	k := sinks{
		Ta: s.Air.Kelvin(), p: float64(s.Site), wind: float64(s.Wind), Tr: s.Radiant.Kelvin(),
		wet: float64(s.Wet), contact: float64(s.Contact), Tg: s.Ground.Kelvin(), hg: float64(s.ContactCoefficient),
		diameter: diameter, emission: emissivity,
	}
	if !s.Radiant.Given() {
		k.Tr = k.Ta
	}
	if k.wet > 0 {
		ps, err := air.SaturationPressure(k.Ta)
		if err != nil {
			return sinks{}, units.At("air", err)
		}
		k.pv = math.Min(float64(s.Humidity)*ps, 0.9*k.p)
	}
	return k, nil
}

// lowest and highest of the temperatures around, K.
func (k *sinks) span() (lo, hi float64) {
	lo, hi = math.Min(k.Ta, k.Tr), math.Max(k.Ta, k.Tr)
	if k.contact > 0 {
		lo, hi = math.Min(lo, k.Tg), math.Max(hi, k.Tg)
	}
	return lo, hi
}

// film are the properties of air at T (K) and p (Pa).
type film struct{ density, viscosity, conductivity, prandtl float64 }

const airHeatCapacity = 1006.0 // J/(kg·K), within 0.5 % from −40 °C to 100 °C

// filmAt holds the temperature within the range of the equations; checked inputs
// never leave it.
func filmAt(p, T float64) film {
	T = math.Min(math.Max(T, 150), 2000)
	var f film
	f.density, f.viscosity, f.conductivity = air.Film(math.Max(p, 100), T)
	f.prandtl = f.viscosity * airHeatCapacity / f.conductivity
	return f
}

// convection returns the coefficients in W/(m²·K) of natural and forced convection
// from a surface at Ts, and of both together.
//
//	Nu⁴ = Nu_natural⁴ + Nu_forced⁴
func (k *sinks) convection(Ts float64) (natural, forced, both float64) {
	f := filmAt(k.p, 0.5*(Ts+k.Ta))
	scale := f.conductivity / k.diameter
	nu := f.viscosity / f.density
	const g = 9.80665
	Ra := g * math.Abs(Ts-k.Ta) / (0.5 * (Ts + k.Ta)) * k.diameter * k.diameter * k.diameter / (nu * nu) * f.prandtl
	natural = scale * churchillChuAir(Ra, f.prandtl)
	if k.wind == 0 {
		return natural, 0, natural
	}
	forced = scale * ChurchillBernstein(k.wind*k.diameter/nu, f.prandtl)
	n2, f2 := natural*natural, forced*forced
	return natural, forced, math.Sqrt(math.Sqrt(n2*n2 + f2*f2))
}

// A flux is heat from a square metre of surface, W/m², by its four ways.
type flux struct{ convection, radiation, evaporation, contact float64 }

func (q flux) total() float64 { return q.convection + q.radiation + q.evaporation + q.contact }

// from returns the heat from a surface at Ts.
func (k *sinks) from(Ts float64) flux {
	_, _, h := k.convection(Ts)
	free := 1 - k.contact
	q := flux{
		convection: free * h * (Ts - k.Ta),
		radiation:  free * GreyRadiation(k.emission, Ts, k.Tr),
	}
	if k.contact > 0 {
		q.contact = k.contact * k.hg * (Ts - k.Tg)
	}
	if k.wet > 0 {
		q.evaporation = free * k.wet * k.evaporation(Ts, h)
	}
	return q
}

// evaporation is the heat in W/m² that water on a surface at Ts takes to
// evaporate, by the analogy of Chilton and Colburn.
//
//	q = h/(ρ·cp·Le^(2/3))·(ρv,s − ρv,∞)·Δhv
func (k *sinks) evaporation(Ts, h float64) float64 {
	const vapourGasConstant = 461.523 // J/(kg·K)
	T := math.Min(math.Max(Ts, 200), 370)
	ps, _ := air.SaturationPressure(T)
	ps = math.Min(ps, 0.9*k.p)
	f := filmAt(k.p, 0.5*(Ts+k.Ta))
	D := vapourDiffusivity(k.p, 0.5*(Ts+k.Ta))
	Le := f.conductivity / (f.density * airHeatCapacity) / D
	latent, _ := water.LatentHeat(math.Max(T, 273.15))
	return h / (f.density * airHeatCapacity * math.Cbrt(Le*Le)) * (ps/Ts - k.pv/k.Ta) / vapourGasConstant * latent
}

// vapourDiffusivity of water vapour in air in m²/s at p (Pa) and T (K):
// D = 1.87e-10 T^2.072/p, p in atm, 282 to 450 K. Source: T. R. Marrero and
// E. A. Mason, "Gaseous diffusion coefficients", Journal of Physical and Chemical
// Reference Data 1(1), 1972, pp. 3–118.
func vapourDiffusivity(p, T float64) float64 {
	return 1.87e-10 * T * T * math.Exp(0.072*math.Log(T)) * 101325 / p
}

// through returns the surface temperature at which the heat that comes through a
// resistance R (m²·K/W of surface) from T leaves to the surroundings.
func (k *sinks) through(T, R float64) (float64, error) {
	if R == 0 {
		return T, nil
	}
	lo, hi := k.span()
	lo, hi = math.Min(lo, T)-60, math.Max(hi, T)
	if hi-lo < 1e-9 {
		return T, nil
	}
	// The heat is nearly proportional to the distance from the rest: begin with
	// the coefficient that a surface at T would have.
	q, next := k.from(T).total(), 0.5*(T+k.Ta)
	if d := T - k.Ta; d != 0 {
		next = k.Ta + d/(1+R*math.Max(q/d, 0))
	}
	f := func(Ts float64) float64 { return T - Ts - R*k.from(Ts).total() }
	if q == 0 {
		return T, nil
	}
	if Ts, _, _, ok := root.Inverse(f, T, -R*q, next, f(next), lo, hi+1e-9, 1e-11); ok {
		return math.Min(Ts, hi), nil
	}
	return bracketed("surface temperature", f, lo, hi, 1e-11*hi)
}

// rest is the temperature of a surface that neither gains nor loses heat.
func (k *sinks) rest() (float64, error) {
	lo, hi := k.span()
	if k.wet == 0 && hi-lo < 1e-9 {
		return k.Ta, nil
	}
	return bracketed("temperature at rest", func(T float64) float64 { return -k.from(T).total() }, lo-60, hi+1e-6, 1e-11*hi)
}

// An OutsideCoefficient is the heat transfer at a surface by way.
type OutsideCoefficient struct {
	Natural    units.HeatTransferCoefficient // convection in still air
	Forced     units.HeatTransferCoefficient // convection by wind, 0 without
	Convection units.HeatTransferCoefficient // both together, to the air
	Radiation  units.HeatTransferCoefficient // to what the surface sees
}

// Outside returns the heat transfer coefficients of a horizontal cylinder whose
// surface has the given temperature.
//
// Convection is [ChurchillChu] in still air and [ChurchillBernstein] in wind, joined
// by Nu⁴ = Nu_n⁴ + Nu_f⁴, with air properties at the mean of surface and air
// temperature. Radiation is ε·σ·(Ts² + Tr²)(Ts + Tr). In still air both count: for a
// hose leaving radiation out understates the loss by a quarter.
//
// Range: diameter 1 mm to 2 m, surface −100 °C to 300 °C, emissivity 0 to 1.
//
// Source: as the correlations; the exponent 4 for cylinders after F. P. Incropera
// and others, Fundamentals of Heat and Mass Transfer, section 9.9; air by U.S.
// Standard Atmosphere 1976.
func Outside(diameter units.Length, surface units.Temperature, emissivity units.Ratio, s Surroundings) (OutsideCoefficient, error) {
	if err := all(
		partDiameter("diameter", diameter), between("surface", surface, units.Celsius(-100), units.Celsius(300)),
		share("emissivity", emissivity), units.At("surroundings", s.Validate()),
	); err != nil {
		return OutsideCoefficient{}, err
	}
	k, err := sinksOf(s, float64(diameter), float64(emissivity))
	if err != nil {
		return OutsideCoefficient{}, units.At("surroundings", err)
	}
	n, f, b := k.convection(surface.Kelvin())
	r := k.emission * radiationCoefficient(surface.Kelvin(), k.Tr)
	return OutsideCoefficient{
		units.HeatTransferCoefficient(n), units.HeatTransferCoefficient(f),
		units.HeatTransferCoefficient(b), units.HeatTransferCoefficient(r),
	}, nil
}

func partDiameter(path string, d units.Length) error {
	return inside(path, d, 1*units.Millimeter, 2*units.Meter)
}
