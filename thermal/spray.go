package thermal

import (
	"math"

	"example.com/washrig/internal/air"
	"example.com/washrig/internal/ode"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// A Spray is hot water on its way from the nozzle to the surface.
type Spray struct {
	Temperature units.Temperature // before the nozzle
	Line        units.AbsolutePressure
	Standoff    units.Length
	Velocity    units.Velocity // of the jet as it leaves
	// Drops between Fine and Coarse in diameter. Nobody measures them on a washer:
	// 0.1 to 1 mm spans flat high-pressure sprays (common practice).
	Fine, Coarse units.Length
	// Slowed is the share of its velocity that a fine drop keeps on average over
	// the way, 0.05 to 1; a coarse one keeps all. 0.3 is a guess on the far side
	// (common practice).
	Slowed units.Ratio

	Air      units.Temperature
	Humidity units.Ratio // relative, of the air
	Site     units.AbsolutePressure
}

// A SprayBand is what arrives at the surface, between the finest slow drops and the
// coarsest fast ones.
type SprayBand struct {
	Warmest, Coolest units.Temperature
	// Flash is the share by mass that turns to steam at the nozzle, whatever the
	// drops; Least and Most the shares gone by the time of arrival, Flash included.
	Flash, Least, Most units.Ratio
}

// AtSurface returns the band of the temperature at which a hot spray arrives, and how
// much of it has evaporated on the way.
//
// What is above its boiling point flashes first and starts at the boiling point. A
// drop then cools by convection and evaporation (film theory, well mixed inside):
//
//	dm/dt = −π·d·ρg·D·Sh·ln(1 + B),  B = (Ys − Y∞)/(1 − Ys)
//	m·cp·dT/dt = −π·d·k·Nu·(T − Ta) + Δhv·dm/dt
//	Nu = 2 + 0.6 Re^½ Pr^⅓,  Sh with Sc
//
// The band is wide and honest: an unbroken jet keeps its heat, mist loses it within a
// foot. Air dragged along, which is warm and wet inside a dense spray, is not in it
// and makes the truth warmer.
//
// Range: water 0 °C to 350 °C, standoff 1 mm to 5 m, velocity 5 to 400 m/s, slowed
// 0.05 to 1, drops 10 µm to 10 mm.
//
// Source: W. E. Ranz and W. R. Marshall 1952; D. B. Spalding, The combustion of liquid
// fuels, 4th Symposium on Combustion, 1953, for B; diffusivity of Marrero and Mason
// 1972.
func (s Spray) AtSurface() (SprayBand, error) {
	if err := s.Validate(); err != nil {
		return SprayBand{}, err
	}
	x, err := FlashFraction(s.Temperature, s.Line, s.Site)
	if err != nil {
		return SprayBand{}, relabel(relabel(err, "at", "temperature"), "end", "site")
	}
	boils, err := BoilingPoint(s.Site)
	if err != nil {
		return SprayBand{}, units.At("site", err)
	}
	// A drop at its boiling point evaporates without limit in this theory: begin
	// just below.
	start := math.Min(s.Temperature.Kelvin(), boils.Kelvin()-0.05)
	ps, err := air.SaturationPressure(s.Air.Kelvin())
	if err != nil {
		return SprayBand{}, units.At("air", err)
	}
	d := drop{Ta: s.Air.Kelvin(), p: float64(s.Site), pv: math.Min(float64(s.Humidity)*ps, 0.9*float64(s.Site)), boils: boils.Kelvin(), latent: latentTo(math.Max(boils.Kelvin(), 274))}
	fly := func(size units.Length, velocity float64) (T, gone float64, err error) {
		d.size, d.v = float64(size), velocity
		return d.fly(start, float64(s.Standoff)/velocity)
	}
	cool, most, err := fly(s.Fine, float64(s.Velocity)*float64(s.Slowed))
	if err != nil {
		return SprayBand{}, err
	}
	warm, least, err := fly(s.Coarse, float64(s.Velocity))
	if err != nil {
		return SprayBand{}, err
	}
	rest := 1 - float64(x)
	return SprayBand{
		Warmest: units.Kelvin(math.Max(warm, cool)), Coolest: units.Kelvin(math.Min(warm, cool)), Flash: x,
		Least: x + units.Ratio(rest*math.Min(least, most)), Most: x + units.Ratio(rest*math.Max(least, most)),
	}, nil
}

// Validate reports every field that cannot be used.
func (s Spray) Validate() error {
	const um = units.Micrometer
	err := all(
		between("temperature", s.Temperature, coldestWater, hottestWater),
		linePressure("line", s.Line),
		inside("standoff", s.Standoff, 1*units.Millimeter, 5*units.Meter),
		inside("velocity", s.Velocity, 5, 400),
		inside("fine", s.Fine, 10*um, 10*units.Millimeter), inside("coarse", s.Coarse, 10*um, 10*units.Millimeter),
		inside("slowed", s.Slowed, 0.05, 1),
		between("air", s.Air, coldestAir, hottestAir), share("humidity", s.Humidity),
		sitePressure("site", s.Site),
	)
	if err == nil && s.Fine > s.Coarse {
		err = refuse("fine", s.Fine.String(), "at most the coarse drop, "+s.Coarse.String(), units.ErrConflict)
	}
	if err == nil && s.Line < s.Site {
		err = refuse("line", s.Line.String(), "at least the site's, "+s.Site.String(), units.ErrConflict)
	}
	if err == nil {
		err = liquidAt("temperature", float64(s.Line), s.Temperature.Kelvin())
	}
	return err
}

// A drop flies through still air.
type drop struct {
	size, v          float64 // m, m/s
	Ta, p, pv, boils float64
	latent           latentLine
}

// fly returns the temperature after t seconds and the share evaporated.
func (d *drop) fly(T0, t float64) (T, gone float64, err error) {
	rho, err := water.Density(math.Max(d.p, 101325), T0)
	if err != nil {
		return 0, 0, units.At("temperature", err)
	}
	m0 := rho * math.Pi / 6 * d.size * d.size * d.size
	// y: temperature, share left.
	y := []float64{T0, 1}
	var solver ode.Solver
	const nothing = 1e-6
	dry := ode.Event{G: func(_ float64, y []float64) float64 { return y[1] - nothing }, Direction: -1}
	_, err = solver.Integrate(func(_ float64, y, dy []float64) {
		m := m0 * math.Max(y[1], nothing)
		size := d.size * math.Cbrt(math.Max(y[1], nothing))
		heat, mass, latent := d.exchange(y[0], size)
		dy[1] = -mass / m0
		dy[0] = (-heat - latent*mass) / (m * 4186)
	}, 0, t, y, ode.Options{Relative: 1e-8, Absolute: []float64{1e-6, 1e-9}}, dry)
	if err != nil {
		return 0, 0, &units.SolverError{Solver: "drop", State: units.Kelvin(y[0]).String()}
	}
	return y[0], math.Min(1, math.Max(0, 1-y[1])), nil
}

// exchange returns the heat that leaves a drop by convection in W, the mass that
// evaporates in kg/s, and the heat of evaporation in J/kg.
func (d *drop) exchange(T, size float64) (heat, mass, latent float64) {
	T = math.Min(math.Max(T, 230), d.boils-1e-3)
	ps, _ := air.SaturationPressure(T)
	ps = math.Min(ps, 0.9999*d.p)
	mean := T + (d.Ta-T)/3 // the one-third rule for the film
	f := filmAt(d.p, mean)
	D := vapourDiffusivity(d.p, mean)
	Re := f.density * d.v * size / f.viscosity
	Nu := RanzMarshall(Re, f.prandtl)
	Sh := RanzMarshall(Re, f.viscosity/(f.density*D))
	// Mass fractions of vapour.
	const ratio = 0.621945
	Y := func(pv float64) float64 { return ratio * pv / (ratio*pv + d.p - pv) }
	B := (Y(ps) - Y(d.pv)) / (1 - Y(ps))
	mass = math.Pi * size * f.density * D * Sh * math.Log1p(B)
	heat = math.Pi * size * f.conductivity * Nu * (T - d.Ta)
	return heat, mass, d.latent.at(math.Max(T, 273.15))
}

// A latentLine is the heat of evaporation between the freezing point and a top
// temperature as a polynomial through seven points, which it follows within 3e-6
// below 400 K (TestLatentLine). A flight asks for it a hundred times.
type latentLine struct {
	at0, scale float64
	c          [7]float64 // of Chebyshev's polynomials
}

func latentTo(top float64) latentLine {
	const n = len(latentLine{}.c)
	l := latentLine{at0: 0.5 * (top + 273.15), scale: 2 / (top - 273.15)}
	for k := range n {
		x := math.Cos(math.Pi * (float64(k) + 0.5) / float64(n))
		h, _ := water.LatentHeat(math.Max(l.at0+x/l.scale, 273.15))
		for j := range n {
			w := 2 / float64(n)
			if j == 0 {
				w = 1 / float64(n)
			}
			l.c[j] += w * h * math.Cos(float64(j)*math.Pi*(float64(k)+0.5)/float64(n))
		}
	}
	return l
}

// at sums by Clenshaw's recurrence.
func (l *latentLine) at(T float64) float64 {
	x := (T - l.at0) * l.scale
	b1, b2 := 0.0, 0.0
	for j := len(l.c) - 1; j > 0; j-- {
		b1, b2 = 2*x*b1-b2+l.c[j], b1
	}
	return x*b1 - b2 + l.c[0]
}

// An EvaporatedShare is how much of hot wash water leaves as vapour, for the balance
// of recovered water.
type EvaporatedShare struct {
	// Most is the share if all cooling to the wet bulb is by evaporation.
	Most units.Ratio
	// Usual divides the cooling between evaporation and warming the air as a wet
	// surface does at the mean temperature; it is an estimate.
	Usual units.Ratio
	// Least is the flash at the nozzle alone: the water runs off hot.
	Least units.Ratio
	// Ends is the wet-bulb temperature to which the water cools.
	Ends units.Temperature
}

// Evaporated returns the band of the share of hot wash water that evaporates before
// it is picked up.
//
//	most  = x + (1 − x)(h(T) − h(Twb))/Δhv
//	usual = x + (1 − x)(h(T) − h(Twb))/Δhv · E/(E + H)
//	E/H = Δhv·(ρv,s − ρv,∞)/[ρ·cp·Le^(2/3)·(Tm − Ta)]
//
// x is the flash at the nozzle, Twb the wet-bulb temperature of the air, Tm the mean
// of T and Twb, E and H evaporation and convection from a wet surface at Tm. Water that
// is picked up before it has cooled evaporates less; what dries on a hot pad
// evaporates whole and is the duty's loss, not this one.
//
// Range: water at or above the wet bulb (colder does not evaporate: all zero); air
// −60 °C to 70 °C.
//
// Source: first law; ASHRAE psychrometrics for the wet bulb; analogy of Chilton and
// Colburn.
func Evaporated(water0 units.Temperature, line units.AbsolutePressure, airAt units.Temperature, humidity units.Ratio, site units.AbsolutePressure) (EvaporatedShare, error) {
	err := all(between("water", water0, coldestWater, hottestWater), linePressure("line", line), between("air", airAt, coldestAir, hottestAir), share("humidity", humidity), sitePressure("site", site))
	if err == nil && line < site {
		err = refuse("line", line.String(), "at least the site's, "+site.String(), units.ErrConflict)
	}
	if err != nil {
		return EvaporatedShare{}, err
	}
	x, err := FlashFraction(water0, line, site)
	if err != nil {
		return EvaporatedShare{}, relabel(relabel(err, "at", "water"), "end", "site")
	}
	boils, err := BoilingPoint(site)
	if err != nil {
		return EvaporatedShare{}, units.At("site", err)
	}
	p, Ta := float64(site), airAt.Kelvin()
	humid, err := air.FromRelativeHumidity(p, Ta, float64(humidity))
	if err != nil {
		return EvaporatedShare{}, refuse("humidity", humidity.String(), "a humidity that air of this pressure holds", units.ErrRange)
	}
	wb := math.Max(humid.WetBulb, freezing)
	e := EvaporatedShare{Most: x, Usual: x, Least: x, Ends: units.Kelvin(wb)}
	T := math.Min(water0.Kelvin(), boils.Kelvin())
	if T <= wb {
		return e, nil
	}
	// Liquid just at or below its boiling point at the site.
	h1, err1 := water.SaturatedLiquid(T)
	h2, err2 := water.SaturatedLiquid(wb)
	mean := 0.5 * (T + wb)
	latent, err3 := water.LatentHeat(mean)
	if err := all(err1, err2, err3); err != nil {
		return EvaporatedShare{}, units.At("water", err)
	}
	most := math.Min(1, (h1.Enthalpy-h2.Enthalpy)/latent)
	k := sinks{Ta: Ta, p: p, pv: humid.VapourPressure}
	const h = 1 // the coefficient cancels
	E, H := k.evaporation(mean, h), h*(mean-Ta)
	part := 1.0
	if H > 0 {
		part = math.Max(0, E) / (math.Max(0, E) + H)
	}
	e.Most = x + (1-x)*units.Ratio(most)
	e.Usual = x + (1-x)*units.Ratio(most*part)
	return e, nil
}
