package thermal

import (
	"math"

	"example.com/washrig/internal/ode"
	"example.com/washrig/internal/root"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// PressureRise returns how much the pressure of water shut in a rigid full vessel
// rises for a small warming.
//
//	(∂p/∂T)_V = α/κ
//
// α is the expansivity and κ the compressibility: 15 psi/°F at 50 °F, 39 at 70 °F,
// 101 at 150 °F, zero at 39.1 °F and negative below. A hose or an air pocket lowers it
// by orders of magnitude; see [ShutIn.Soak]. The result is the pressure for one
// kelvin.
//
// Range: liquid from 0 °C to 350 °C.
//
// Source: IAPWS-IF97.
func PressureRise(at units.Temperature, pressure units.AbsolutePressure) (units.Pressure, error) {
	if err := all(between("at", at, coldestWater, hottestWater), linePressure("pressure", pressure)); err != nil {
		return 0, err
	}
	if err := liquidAt("at", float64(pressure), at.Kelvin()); err != nil {
		return 0, err
	}
	x, err := water.ThermalPressureCoefficient(float64(pressure), at.Kelvin())
	if err != nil {
		return 0, units.At("at", err)
	}
	return units.Pressure(x), nil
}

// A ShutIn is a heater whose water is trapped between a check valve and a closed gun,
// with the fire out: the metal goes on giving heat to it.
type ShutIn struct {
	Metal            units.Mass
	MetalHeat        units.SpecificHeat
	MetalTemperature units.Temperature        // as the trigger is released
	Conductance      units.ThermalConductance // metal to water

	Coil            units.Volume      // of water that the metal heats
	CoilTemperature units.Temperature // of that water at release
	Line            units.Volume      // of the rest shut in: pipe and hose to the gun
	LineTemperature units.Temperature // of it; required with Line

	// Loss from the metal to the surroundings, zero for none; Surroundings is
	// required with it.
	Loss         units.ThermalConductance
	Surroundings units.Temperature

	Pressure units.AbsolutePressure // trapped at release
	// Stretch is the volume by which hose and vessel grow together for a
	// pressure rise of StretchAt: a hose that grows 1 % at 3,000 psi is a hundredth
	// of its volume and 3,000 psi. Zero is rigid.
	Stretch   units.Volume
	StretchAt units.Pressure // required with Stretch
	// Air is the volume of air trapped with the water, at Pressure; it gives way
	// as a gas of constant temperature. Zero for none.
	Air units.Volume
	// Relief is where a relief valve on the trapped part opens; zero for none.
	Relief units.AbsolutePressure
}

// A Soak is what becomes of shut-in water.
type Soak struct {
	Peak units.Temperature // of the water in the coil
	Time units.Duration    // after release
	// Highest is the pressure at that time without any relief. Above 50 MPa
	// (7,250 psi), the end of the tables, OffScale is true and Highest is 50 MPa:
	// the true one is higher and something has burst.
	Highest  units.AbsolutePressure
	OffScale bool
	// Lifts is true if the relief opens, After the time from release to it, and
	// Vented the water that leaves by the time of the peak, hot, at the relief.
	Lifts  bool
	After  units.Duration
	Vented units.Mass
	// Boils is true if the water in the coil would boil under the pressure held:
	// Highest, or Relief where that lifts.
	Boils bool
	Lost  units.Energy // to the surroundings until the peak
	Even  bool         // true if the metal was no hotter than the water: nothing happens
}

// Validate reports every field that cannot be used.
func (s ShutIn) Validate() error {
	err := all(
		inside("metal", s.Metal, 0.1*units.Kilogram, 5000*units.Kilogram),
		inside("metalHeat", s.MetalHeat, 100, 2000),
		between("metalTemperature", s.MetalTemperature, coldestWater, units.Kelvin(1000)),
		inside("conductance", s.Conductance, 0.1, 1e6),
		inside("coil", s.Coil, 0.01*units.Liter, 1*units.CubicMeter),
		between("coilTemperature", s.CoilTemperature, coldestWater, hottestWater),
		inside("line", s.Line, 0, 10*units.CubicMeter),
		inside("loss", s.Loss, 0, 1e4),
		linePressure("pressure", s.Pressure),
		inside("stretch", s.Stretch, 0, 10*units.CubicMeter),
		inside("air", s.Air, 0, 1*units.CubicMeter),
		inside("relief", s.Relief, 0, mostLine),
	)
	if s.Line > 0 {
		err = all(err, between("lineTemperature", s.LineTemperature, coldestWater, hottestWater))
	}
	if s.Loss > 0 {
		err = all(err, between("surroundings", s.Surroundings, coldestAir, hottestAir))
	}
	if s.Stretch > 0 {
		err = all(err, inside("stretchAt", s.StretchAt, 1*units.PSI, 1e5*units.PSI))
	}
	if err != nil {
		return err
	}
	if s.Relief > 0 && s.Relief <= s.Pressure {
		err = refuse("relief", s.Relief.String(), "more than the pressure trapped, "+s.Pressure.String(), units.ErrConflict)
	}
	err = all(err, liquidAt("coilTemperature", float64(s.Pressure), s.CoilTemperature.Kelvin()))
	if s.Line > 0 {
		err = all(err, liquidAt("lineTemperature", float64(s.Pressure), s.LineTemperature.Kelvin()))
	}
	return err
}

// Soak returns the peak of temperature and pressure after release.
//
//	Ms·cs·dTs/dt = −K(Ts − Tw) − L(Ts − Ta)
//	m·dh(p0, Tw)/dt = K(Ts − Tw)
//	m/ρ(p, Tw) + ml/ρ(p, Tl) = V0 + Stretch·(p − p0)/StretchAt + Va(1 − p0/p)
//
// The water of the coil is followed as a parcel of mass m; water that it pushes into
// the line keeps its temperature. The metal of the coil itself is taken as rigid: a
// coil of 1/2 in steel tube gives about a twentieth of what the water's own
// compressibility gives.
//
// Range: see the fields. If the water would pass 350 °C an error says so.
//
// Source: first law and conservation of mass; IAPWS-IF97.
func (s ShutIn) Soak() (Soak, error) {
	if err := s.Validate(); err != nil {
		return Soak{}, err
	}
	p0, Tw0, Ts0 := float64(s.Pressure), s.CoilTemperature.Kelvin(), s.MetalTemperature.Kelvin()
	rho, err := water.Density(p0, Tw0)
	if err != nil {
		return Soak{}, units.At("coilTemperature", err)
	}
	m := rho * float64(s.Coil)
	r := Soak{Peak: s.CoilTemperature, Highest: s.Pressure}
	if Ts0 <= Tw0 {
		r.Even = true
		return r, nil
	}

	// Heat capacity of the parcel along the liquid at the trapped pressure; where
	// it would boil there, along saturated liquid at the pressure it then has.
	h0, err := water.Enthalpy(p0, Tw0)
	if err != nil {
		return Soak{}, units.At("coilTemperature", err)
	}
	pHeat := math.Max(p0, 17e6) // no boiling below 350 °C, so one smooth liquid
	if boils, ok := boilingAt(p0); !ok || Ts0 < boils {
		pHeat = p0
	} else if h0, err = water.Enthalpy(pHeat, Tw0); err != nil {
		return Soak{}, units.At("coilTemperature", err)
	}

	// y: metal, enthalpy gained by the parcel per kg, heat lost.
	Cs, K, L, Ta := float64(s.Metal)*float64(s.MetalHeat), float64(s.Conductance), float64(s.Loss), s.Surroundings.Kelvin()
	temperature := func(dh float64) float64 {
		T, err := water.TemperatureFromEnthalpy(pHeat, h0+dh)
		if err != nil {
			return math.NaN()
		}
		return T
	}
	flow := func(_ float64, y, d []float64) {
		Tw := temperature(y[1])
		d[2] = L * (y[0] - Ta)
		d[1] = K * (y[0] - Tw) / m
		d[0] = (-K*(y[0]-Tw) - d[2]) / Cs
	}
	abs := []float64{1e-9, 1e-5, 1e-4}
	// The water peaks where the metal has come down to it. Without loss that is
	// never quite; a thousandth of the first difference is near enough, and the
	// balance of heat gives the end itself.
	rest := 0.0
	if L == 0 {
		rest = 1e-3 * (Ts0 - Tw0)
	}
	meet := ode.Event{G: func(_ float64, y []float64) float64 { return y[0] - temperature(y[1]) - rest }, Direction: -1}
	y := []float64{Ts0, 0, 0}
	var solver ode.Solver
	res, err := solver.Integrate(flow, 0, float64(mostDelay), y, ode.Options{Relative: 1e-11, Absolute: abs}, meet)
	if err != nil || res.Event != 0 {
		return Soak{}, refuse("metalTemperature", s.MetalTemperature.String(), "metal that leaves the water below 350 °C", units.ErrRange)
	}
	peak := temperature(y[1])
	if L == 0 {
		if peak, err = s.closes(m, pHeat, h0); err != nil {
			return Soak{}, err
		}
	}
	r.Peak, r.Time, r.Lost = units.Kelvin(peak), units.Duration(res.T), units.Energy(y[2])

	v := s.vessel(m)
	p, off, err := v.pressure(peak)
	if err != nil {
		return Soak{}, units.At("coilTemperature", err)
	}
	r.Highest, r.OffScale = units.AbsolutePressure(p), off
	held := p
	if s.Relief > 0 && p > float64(s.Relief) {
		r.Lifts, held = true, float64(s.Relief)
		T, err := v.temperature(held, Tw0, peak)
		if err != nil {
			return Soak{}, units.At("relief", err)
		}
		// When does the parcel get there?
		y = []float64{Ts0, 0, 0}
		lift := ode.Event{G: func(_ float64, y []float64) float64 { return temperature(y[1]) - T }, Direction: +1}
		res, err := solver.Integrate(flow, 0, res.T, y, ode.Options{Relative: 1e-11, Absolute: abs}, lift)
		if err != nil {
			return Soak{}, units.At("relief", &units.FieldError{Path: "", Value: s.Relief.String(), Want: "a relief within the range of the tables", Err: units.ErrRange})
		}
		r.After = units.Duration(res.T)
		// What the peak needs above what the vessel offers leaves at the density
		// of the coil's water.
		over, dens, err := v.excess(held, peak)
		if err != nil {
			return Soak{}, units.At("relief", err)
		}
		r.Vented = units.Mass(math.Max(0, over*dens))
	}
	if boils, ok := boilingAt(held); ok {
		r.Boils = peak > boils
	}
	return r, nil
}

// closes returns the temperature at which metal and parcel are even when nothing is
// lost: Cs(Ts0 − T) = m(h(T) − h0).
func (s ShutIn) closes(m, p, h0 float64) (float64, error) {
	Ts0, Cs := s.MetalTemperature.Kelvin(), float64(s.Metal)*float64(s.MetalHeat)
	lo, hi := s.CoilTemperature.Kelvin(), math.Min(Ts0, hottestLiquid)
	capacity := m * 4200 // begins
	peak, _, err := root.Safeguarded(func(T float64) (f, slope float64) {
		_, h, cp, err := water.Caloric(p, T)
		if err != nil {
			return math.NaN(), 0
		}
		return m*(h-h0) - Cs*(Ts0-T), m*cp + Cs
	}, lo, hi, (capacity*lo+Cs*Ts0)/(capacity+Cs), 1e-11, 0)
	if err != nil {
		return 0, refuse("metalTemperature", s.MetalTemperature.String(), "metal that leaves the water below 350 °C", units.ErrRange)
	}
	return peak, nil
}

// A vessel is the trapped volume: two parcels of water, air, and what gives way.
type vessel struct {
	coil, line, Tl float64 // kg, kg, K
	V0, p0         float64 // of water at release, m³ and Pa
	stretch, air   float64 // m³/Pa, m³
	err            error
}

func (s ShutIn) vessel(coil float64) vessel {
	v := vessel{coil: coil, V0: float64(s.Coil) + float64(s.Line), p0: float64(s.Pressure), air: float64(s.Air)}
	if s.Line > 0 {
		v.Tl = s.LineTemperature.Kelvin()
		var rho float64
		rho, v.err = water.Density(v.p0, v.Tl)
		v.line = rho * float64(s.Line)
	}
	if s.Stretch > 0 {
		v.stretch = float64(s.Stretch) / float64(s.StretchAt)
	}
	return v
}

// excess is the volume the water would take at p with the coil at T, less the volume
// there is, in m³, and the density in the coil.
func (v *vessel) excess(p, T float64) (float64, float64, error) {
	if v.err != nil {
		return 0, 0, v.err
	}
	if boils, ok := boilingAt(p); ok && T > boils {
		// Held liquid just at its boiling pressure.
		q, err := water.SaturationPressure(T)
		if err != nil {
			return 0, 0, err
		}
		p = math.Max(p, q*(1+1e-12))
	}
	rho, err := water.Density(p, T)
	if err != nil {
		return 0, 0, err
	}
	need := v.coil / rho
	if v.line > 0 {
		rl, err := water.Density(p, v.Tl)
		if err != nil {
			return 0, 0, err
		}
		need += v.line / rl
	}
	return need - v.V0 - v.stretch*(p-v.p0) - v.air*(1-v.p0/p), rho, nil
}

// pressure at which the water fills the vessel with the coil at T, and whether it
// lies beyond the tables. Water heated below 39 °F shrinks; the pressure then falls,
// at most to where it boils or to the lowest of the range.
func (v *vessel) pressure(T float64) (p float64, off bool, err error) {
	lo, hi := float64(leastLine), float64(mostLine)
	if q, e := water.SaturationPressure(T); e == nil {
		lo = math.Max(lo, q*(1+1e-9))
	}
	if v.line > 0 {
		if q, e := water.SaturationPressure(v.Tl); e == nil {
			lo = math.Max(lo, q*(1+1e-9))
		}
	}
	atLo, _, err := v.excess(lo, T)
	if err != nil {
		return 0, false, err
	}
	if atLo <= 0 {
		return lo, false, nil
	}
	atHi, _, err := v.excess(hi, T)
	if err != nil {
		return 0, false, err
	}
	if atHi >= 0 {
		return hi, true, nil
	}
	p, _, err = root.NearFrom(func(p float64) float64 {
		x, _, e := v.excess(p, T)
		if e != nil {
			return math.NaN()
		}
		return x
	}, lo, atLo, hi, atHi, lo, hi, 1e-9*hi)
	if err != nil {
		return 0, false, &units.SolverError{Solver: "shut-in pressure", Residual: residual(atLo), Lo: lo, Hi: hi}
	}
	return p, false, nil
}

// temperature of the coil at which the pressure is p.
func (v *vessel) temperature(p, lo, hi float64) (float64, error) {
	f := func(T float64) float64 {
		x, _, err := v.excess(p, T)
		if err != nil {
			return math.NaN()
		}
		return x
	}
	if f(lo) >= 0 {
		return lo, nil
	}
	return bracketed("relief", f, lo, hi, 1e-10)
}
