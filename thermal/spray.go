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
func (s Spray) AtSurface() (SprayBand, error) { return s.AtSurfaceIn(new(Flights)) }

// Flights is memory that [Spray.AtSurfaceIn] uses one spray after another. The zero
// Flights is ready. It keeps nothing of one spray for the next and serves one at a
// time.
type Flights struct {
	drop   drop
	solver ode.Solver
	y, abs [2]float64
	rate   ode.Func
	dry    [1]ode.Event
}

// AtSurfaceIn is [Spray.AtSurface] in the memory of w: the same result to the last bit,
// with nothing allocated from the second time on.
func (s Spray) AtSurfaceIn(w *Flights) (SprayBand, error) {
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
	d := &w.drop
	*d = drop{Ta: s.Air.Kelvin(), p: float64(s.Site), pv: math.Min(float64(s.Humidity)*ps, 0.9*float64(s.Site)), boils: boils.Kelvin()}
	d.film(start)
	d.line(start)
	d.size, d.v = float64(s.Fine), float64(s.Velocity)*float64(s.Slowed)
	cool, most, err := w.fly(start, float64(s.Standoff)/d.v)
	if err != nil {
		return SprayBand{}, err
	}
	d.size, d.v = float64(s.Coarse), float64(s.Velocity)
	warm, least, err := w.fly(start, float64(s.Standoff)/d.v)
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
	m0               float64 // kg, as it leaves
	air              [filmPoints]filmTerm
	mid, scale       float64 // K, 1/K: of the terms of air
	driveLine
}

// A filmTerm is what a power of the drop's temperature adds to heat and mass, over the size of the drop: by itself and times √(v·size).
type filmTerm struct{ heat, heatBlown, mass, massBlown float64 }

// gone is the share of a drop's surface that counts as none: a millionth of its mass
// is left.
const gone = 1e-4

// fly returns the temperature after t seconds and the share evaporated.
func (w *Flights) fly(T0, t float64) (T, evaporated float64, err error) {
	d := &w.drop
	rho, err := water.Density(math.Max(d.p, 101325), T0)
	if err != nil {
		return 0, 0, units.At("temperature", err)
	}
	d.m0 = rho * math.Pi / 6 * d.size * d.size * d.size
	if w.rate == nil {
		w.rate = d.rate
		w.dry[0] = ode.Event{G: func(_ float64, y []float64) float64 { return y[1] - gone }, Direction: -1}
		w.abs = [2]float64{1e-6, 1e-9}
	}
	// y: temperature, and share of the surface left, which falls nearly straight.
	w.y = [2]float64{T0, 1}
	_, err = w.solver.Integrate(w.rate, 0, t, w.y[:], ode.Options{Relative: 1e-8, Absolute: w.abs[:]}, w.dry[:]...)
	if err != nil {
		return 0, 0, &units.SolverError{Solver: "drop", State: units.Kelvin(w.y[0]).String()}
	}
	return w.y[0], math.Min(1, math.Max(0, 1-w.y[1]*math.Sqrt(w.y[1]))), nil
}

// rate is the derivative of temperature and share of the surface left.
func (d *drop) rate(_ float64, y, dy []float64) {
	surface := max(y[1], gone)
	diameter := math.Sqrt(surface)
	heat, mass := d.exchange(y[0], d.size*diameter)
	dy[1] = -mass / (1.5 * d.m0 * diameter)
	dy[0] = -heat / (d.m0 * surface * diameter * 4186)
}

// film prepares the properties of the air around drops that begin at T: polynomials
// through eight points, which follow them within 1e-8 (TestFilm). A flight asks for
// them a hundred times.
func (d *drop) film(T float64) {
	lo, hi := math.Max(math.Min(T, d.Ta-60), 230), math.Max(T, d.Ta)
	d.mid, d.scale = 0.5*(lo+hi), 2/(hi-lo)
	d.air = [filmPoints]filmTerm{}
	for k := range filmPoints {
		at := d.properties(d.mid + points.at[k]/d.scale)
		for j := range filmPoints {
			w, t := points.power[j][k], &d.air[j]
			t.heat += w * at.heat
			t.heatBlown += w * at.heatBlown
			t.mass += w * at.mass
			t.massBlown += w * at.massBlown
		}
	}
}

// properties of the air around a drop at T.
func (d *drop) properties(T float64) filmTerm {
	mean := T + (d.Ta-T)/3 // the one-third rule for the film
	f := filmAt(d.p, mean)
	D := vapourDiffusivity(d.p, mean)
	blown := math.Sqrt(f.density / f.viscosity)
	a, b := math.Pi*f.conductivity, math.Pi*f.density*D
	// Re^½ is √(v·size) times blown.
	const still = 2
	return filmTerm{
		still * a, a * blown * (RanzMarshall(1, f.prandtl) - still),
		still * b, b * blown * (RanzMarshall(1, f.viscosity/(f.density*D)) - still),
	}
}

// exchange returns the heat in W that leaves a drop by convection and evaporation and
// the mass in kg/s that evaporates.
func (d *drop) exchange(T, size float64) (heat, mass float64) {
	T = min(max(T, 230), d.boils-1e-3)
	x := (T - d.mid) * d.scale
	x2 := x * x
	x4 := x2 * x2
	a := &d.air
	r := math.Sqrt(d.v * size)
	still := (a[0].heat + x*a[1].heat) + x2*(a[2].heat+x*a[3].heat) + x4*((a[4].heat+x*a[5].heat)+x2*(a[6].heat+x*a[7].heat))
	blown := (a[0].heatBlown + x*a[1].heatBlown) + x2*(a[2].heatBlown+x*a[3].heatBlown) + x4*((a[4].heatBlown+x*a[5].heatBlown)+x2*(a[6].heatBlown+x*a[7].heatBlown))
	heat = size * (still + r*blown) * (T - d.Ta)
	still = (a[0].mass + x*a[1].mass) + x2*(a[2].mass+x*a[3].mass) + x4*((a[4].mass+x*a[5].mass)+x2*(a[6].mass+x*a[7].mass))
	blown = (a[0].massBlown + x*a[1].massBlown) + x2*(a[2].massBlown+x*a[3].massBlown) + x4*((a[4].massBlown+x*a[5].massBlown)+x2*(a[6].massBlown+x*a[7].massBlown))
	mass = size * (still + r*blown) * d.drive(T)
	return heat + evaporation.at(max(T, 273.15))*mass, mass
}

// A driveLine is ln(1 + B) as a polynomial between two temperatures.
type driveLine struct {
	from, to          float64 // K
	driveMid, perHalf float64 // K, 1/K
	c                 [drivePoints]float64
}

const drivePoints = 16

// line prepares drive for drops that begin at T. It is as smooth as the distance from
// the boiling point, where it grows without limit, lets it be, and bends where ice
// takes the place of water: the polynomial stays off both.
func (d *drop) line(T float64) {
	lo := math.Max(math.Min(T, d.Ta-30), 273.16)
	hi := math.Min(math.Max(T, d.Ta), (d.boils+0.35*lo)/1.35)
	d.driveLine = driveLine{}
	if !(hi > lo) {
		return
	}
	d.from, d.to = lo, hi
	d.driveMid, d.perHalf = 0.5*(lo+hi), 2/(hi-lo)
	for k := range d.c {
		x := d.driveExact(d.driveMid + drivePolynomials.at[k]/d.perHalf)
		for j := range d.c {
			d.c[j] += drivePolynomials.power[j][k] * x
		}
	}
}

// drive is ln(1 + B) of a drop at T.
func (d *drop) drive(T float64) float64 {
	if !(T >= d.from && T <= d.to) {
		return d.driveExact(T)
	}
	x, c := (T-d.driveMid)*d.perHalf, &d.c
	x2 := x * x
	x4 := x2 * x2
	p0, p1 := (c[0]+x*c[1])+x2*(c[2]+x*c[3]), (c[4]+x*c[5])+x2*(c[6]+x*c[7])
	p2, p3 := (c[8]+x*c[9])+x2*(c[10]+x*c[11]), (c[12]+x*c[13])+x2*(c[14]+x*c[15])
	return (p0 + x4*p1) + x4*x4*(p2+x4*p3)
}

// driveExact is drive without the polynomial.
func (d *drop) driveExact(T float64) float64 {
	ps, _ := air.SaturationPressure(T)
	ps = min(ps, 0.9999*d.p)
	// 1 + B is (1 − Y∞)/(1 − Ys), mass fractions of vapour.
	const ratio = 0.621945
	return math.Log((d.p - d.pv) * (d.p - (1-ratio)*ps) / ((d.p - (1-ratio)*d.pv) * (d.p - ps)))
}

// A latentLine is the heat of evaporation between the freezing point and a top
// temperature as a polynomial through eight points, which it follows within 3e-6
// (TestLatentLine).
type latentLine struct {
	at0, scale float64
	c          [filmPoints]float64 // of the powers
}

// evaporation reaches to 400 K, above the boiling point of any site. A flight asks for
// it a hundred times.
var evaporation = latentTo(400)

func latentTo(top float64) latentLine {
	l := latentLine{at0: 0.5 * (top + 273.15), scale: 2 / (top - 273.15)}
	for k := range l.c {
		h, _ := water.LatentHeat(math.Max(l.at0+points.at[k]/l.scale, 273.15))
		for j := range l.c {
			l.c[j] += points.power[j][k] * h
		}
	}
	return l
}

func (l *latentLine) at(T float64) float64 {
	x := (T - l.at0) * l.scale
	x2 := x * x
	c := &l.c
	return (c[0] + x*c[1]) + x2*(c[2]+x*c[3]) + x2*x2*((c[4]+x*c[5])+x2*(c[6]+x*c[7]))
}

// filmPoints is how many points the polynomials of a flight go through.
const filmPoints = 8

// fitting holds the zeros of Chebyshev's polynomial of a degree, and by power and point
// the coefficients of the polynomial that is one there and zero at the others.
type fitting struct {
	at    [drivePoints]float64
	power [drivePoints][drivePoints]float64
}

var points, drivePolynomials = fittingThrough(filmPoints), fittingThrough(drivePoints)

func fittingThrough(n int) (p fitting) {
	for k := range n {
		p.at[k] = math.Cos(math.Pi * (float64(k) + 0.5) / float64(n))
	}
	for k := range n {
		c, scale := [drivePoints]float64{1}, 1.0
		degree := 0
		for m, x := range p.at[:n] {
			if m == k {
				continue
			}
			degree++
			for j := degree; j >= 0; j-- { // times (X − x)
				c[j] *= -x
				if j > 0 {
					c[j] += c[j-1]
				}
			}
			scale *= p.at[k] - x
		}
		for j := range n {
			p.power[j][k] = c[j] / scale
		}
	}
	return p
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
	h1, _, err1 := water.SaturatedEnthalpies(T)
	h2, _, err2 := water.SaturatedEnthalpies(wb)
	mean := 0.5 * (T + wb)
	latent, err3 := water.LatentHeat(mean)
	if err := all(err1, err2, err3); err != nil {
		return EvaporatedShare{}, units.At("water", err)
	}
	most := math.Min(1, (h1-h2)/latent)
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
