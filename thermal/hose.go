package thermal

import (
	"math"

	"example.com/washrig/internal/ode"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// A Hose is a length of hose or pipe as heat sees it.
type Hose struct {
	Length       units.Length
	Bore         units.Length              // true inside diameter
	Outside      units.Length              // diameter
	Conductivity units.ThermalConductivity // of the wall: rubber 0.13 to 0.25 W/(m·K)
	Emissivity   units.Ratio               // of the outside: rubber about 0.9
	// Density and specific heat of the wall; only [Hose.Arrival] and
	// [Hose.Exposed] need them.
	WallDensity units.Density
	WallHeat    units.SpecificHeat
}

// Validate reports every field that cannot be used; the last two are not required
// and are checked only if given.
func (h Hose) Validate() error {
	err := all(
		inside("length", h.Length, 1*units.Millimeter, 2000*units.Meter),
		inside("bore", h.Bore, 1*units.Millimeter, 1*units.Meter),
		inside("outside", h.Outside, 1*units.Millimeter, 2*units.Meter),
		inside("conductivity", h.Conductivity, 0.01, 500),
		share("emissivity", h.Emissivity),
	)
	if h.WallDensity != 0 {
		err = all(err, inside("wallDensity", h.WallDensity, 10, 25000))
	}
	if h.WallHeat != 0 {
		err = all(err, inside("wallHeat", h.WallHeat, 100, 5000))
	}
	if err == nil && h.Outside <= h.Bore*(1+1e-9) {
		err = refuse("outside", h.Outside.String(), "more than the bore, "+h.Bore.String(), units.ErrConflict)
	}
	return err
}

// wallValidate requires the wall's heat capacity.
func (h Hose) wallValidate() error {
	return all(h.Validate(), inside("wallDensity", h.WallDensity, 10, 25000), inside("wallHeat", h.WallHeat, 100, 5000))
}

// A HoseHeat is what a hose does to the water that passes.
type HoseHeat struct {
	Out  units.Temperature
	Drop units.TemperatureDelta // inlet less outlet, negative if the water warms
	Loss units.Power            // to the surroundings; the sum of the four ways below

	Convection, Radiation, Evaporation, Contact units.Power

	// At the inlet end:
	Surface units.Temperature             // of the outside
	Inside  units.HeatTransferCoefficient // from water to wall
	// Overall is the heat from a square metre of outside over the difference of
	// water and air; zero where these are equal.
	Overall units.HeatTransferCoefficient
}

// Deliver returns the temperature at the far end and the heat lost on the way, with
// water flowing steadily.
//
//	ṁ dh = −q′(T) dx,  q′ = (T − Ts)/R′ = π·D·q(Ts)
//	R′ = 1/(π·d·hi) + ln(D/d)/(2π·k)
//
// hi is the coefficient inside ([PipeNusselt] with the properties of water at T), q
// the heat from the surface by convection, radiation, evaporation and contact
// ([Surroundings]). The surface temperature Ts is solved for everywhere along the
// hose.
//
// Friction, which warms the water by some [ThrottleWarming] of its pressure loss, is
// not in it.
//
// Range: flow 1 g/s to 100 kg/s, water liquid from 0 °C to 350 °C all the way.
// Without flow see [Exposed.Freeze].
func (h Hose) Deliver(flow units.MassFlow, in units.Temperature, line units.AbsolutePressure, s Surroundings) (HoseHeat, error) {
	if err := all(units.At("hose", h.Validate()), hoseFlow(flow), between("in", in, coldestWater, hottestWater), linePressure("line", line), units.At("surroundings", s.Validate())); err != nil {
		return HoseHeat{}, err
	}
	if err := liquidAt("in", float64(line), in.Kelvin()); err != nil {
		return HoseHeat{}, err
	}
	k, err := sinksOf(s, float64(h.Outside), float64(h.Emissivity))
	if err != nil {
		return HoseHeat{}, units.At("surroundings", err)
	}
	c := hoseKernel{h: h, k: k, m: float64(flow), p: float64(line)}
	T1 := in.Kelvin()
	h1, err := water.Enthalpy(c.p, T1)
	if err != nil {
		return HoseHeat{}, units.At("in", err)
	}
	q, Ts, hi, err := c.leaves(T1)
	if err != nil {
		return HoseHeat{}, units.At("hose", err)
	}

	// Ends of the way: 0 °C, boiling, and what the surroundings would bring the
	// water to, where an endless hose ends.
	cold, err := water.Enthalpy(c.p, coldestWater.Kelvin())
	if err != nil {
		return HoseHeat{}, units.At("line", err)
	}
	hottest := hottestLiquid
	if boils, ok := boilingAt(c.p); ok {
		hottest = math.Min(hottest, boils-1e-6)
	}
	hot, err := water.Enthalpy(c.p, hottest)
	if err != nil {
		return HoseHeat{}, units.At("line", err)
	}
	rest, err := k.rest()
	if err != nil {
		return HoseHeat{}, units.At("surroundings", err)
	}
	temperature := func(fallen float64) (float64, error) {
		return water.TemperatureFromEnthalpy(c.p, math.Min(math.Max(h1-fallen, cold), hot))
	}
	events := []ode.Event{
		{G: func(_ float64, y []float64) float64 { return h1 - y[0] - cold + 1e-3 }, Direction: -1},
		{G: func(_ float64, y []float64) float64 { return hot + 1e-3 - h1 + y[0] }, Direction: -1},
		{G: func(_ float64, y []float64) float64 {
			T, err := temperature(y[0])
			if err != nil {
				return math.NaN()
			}
			return math.Abs(T-rest) - 1e-10*math.Abs(T1-rest)
		}, Direction: -1},
	}

	// y: enthalpy fallen, and the four ways of loss.
	var y [5]float64
	var failed error
	scale := math.Abs(q.total()) * float64(h.Length)
	// The surface temperature is found to 1e-9 K or so, no more can be asked for.
	tol := math.Max(1e-10*scale, 1e-7*math.Pi*k.diameter*float64(h.Length))
	var solver ode.Solver
	end, err := solver.Integrate(func(_ float64, y, d []float64) {
		T, err := temperature(y[0])
		var q flux
		if err == nil {
			q, _, _, err = c.leaves(T)
		}
		if err != nil {
			failed = err
			for i := range d {
				d[i] = math.NaN()
			}
			return
		}
		d[0] = q.total() / c.m
		d[1], d[2], d[3], d[4] = q.convection, q.radiation, q.evaporation, q.contact
	}, 0, float64(h.Length), y[:], ode.Options{Relative: 1e-10, Absolute: []float64{tol / c.m, tol, tol, tol, tol}}, events...)
	if failed != nil || err != nil || end.Event == 0 || end.Event == 1 {
		return HoseHeat{}, refuse("flow", flow.String(), "a flow that stays liquid on its way through the hose", units.ErrRange)
	}
	T2, err := temperature(y[0])
	if err != nil {
		return HoseHeat{}, units.At("flow", err)
	}
	r := HoseHeat{
		Out: units.Kelvin(T2), Drop: units.TemperatureDelta(T1 - T2), Loss: units.Power(y[1] + y[2] + y[3] + y[4]),
		Convection: units.Power(y[1]), Radiation: units.Power(y[2]), Evaporation: units.Power(y[3]), Contact: units.Power(y[4]),
		Surface: units.Kelvin(Ts), Inside: units.HeatTransferCoefficient(hi),
	}
	if dT := T1 - k.Ta; dT != 0 {
		if U := q.total() / (math.Pi * k.diameter * dT); finite(U) {
			r.Overall = units.HeatTransferCoefficient(U)
		}
	}
	return r, nil
}

func hoseFlow(m units.MassFlow) error {
	return inside("flow", m, 1*units.GramPerSecond, 100*units.KilogramPerSecond)
}

// A hoseKernel is a hose with its flow and surroundings as numbers.
type hoseKernel struct {
	h    Hose
	k    sinks
	m, p float64 // kg/s, Pa
}

// inside returns the coefficient from water at T to the wall, W/(m²·K).
func (c *hoseKernel) inside(T float64) (float64, error) {
	w, err := stream(c.m, c.p, T, float64(c.h.Bore))
	return PipeNusselt(w.Re, w.Pr) * w.k / float64(c.h.Bore), err
}

// filmInCoil is the coefficient inside a coil of bore d wound to D, W/(m²·K).
func filmInCoil(m, p, T, d, D float64) (float64, error) {
	w, err := stream(m, p, T, d)
	return SchmidtCoil(w.Re, w.Pr, d/D) * w.k / d, err
}

// A current is water that flows through a bore.
type current struct{ Re, Pr, k float64 }

// stream of m (kg/s) at p and T through the bore d.
func stream(m, p, T, d float64) (current, error) {
	s, err := water.At(p, T)
	if err != nil {
		return current{}, err
	}
	k, err := water.Conductivity(s.Density, T)
	return current{4 * m / (math.Pi * d * s.Viscosity), s.HeatCapacity * s.Viscosity / k, k}, err
}

// leaves returns the heat per metre that leaves water at T, in W/m, with the
// temperature of the surface and the coefficient inside.
func (c *hoseKernel) leaves(T float64) (q flux, Ts, hi float64, err error) {
	if hi, err = c.inside(T); err != nil {
		return
	}
	d, D := float64(c.h.Bore), float64(c.h.Outside)
	perimeter := math.Pi * D
	R := 1/(math.Pi*d*hi) + math.Log(D/d)/(2*math.Pi*float64(c.h.Conductivity))
	if Ts, err = c.k.through(T, R*perimeter); err != nil {
		return
	}
	q = c.k.from(Ts)
	q.convection *= perimeter
	q.radiation *= perimeter
	q.evaporation *= perimeter
	q.contact *= perimeter
	return
}

// Cooled returns the temperature of water at the far end of a hose whose conductance
// to the air is known and constant.
//
//	T2 = Ta + (T1 − Ta)·e^(−UA/(ṁ·cp))
//
// UA is [HoseHeat].Overall times the outside surface. It is the quick form of
// [Hose.Deliver] for many flows and temperatures of one hose: within 3 % of the drop
// while the water keeps within 20 K of where Overall was found.
//
// Range: UA 0 to 1e6 W/K, flow 1 g/s to 100 kg/s, cp 500 to 10,000 J/(kg·K).
//
// Source: any text on heat transfer.
func Cooled(in, air units.Temperature, ua units.ThermalConductance, flow units.MassFlow, cp units.SpecificHeat) (units.Temperature, error) {
	if err := all(
		between("in", in, coldestWater, hottestWater), between("air", air, coldestAir, hottestAir),
		inside("ua", ua, 0, 1e6*units.WattPerKelvin), hoseFlow(flow), inside("cp", cp, 500, 10000),
	); err != nil {
		return units.Temperature{}, err
	}
	fall := float64(in.Sub(air)) * math.Expm1(-float64(ua)/(float64(flow)*float64(cp)))
	return in.Add(units.TemperatureDelta(fall)), nil
}
