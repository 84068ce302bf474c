package thermal

import (
	"math"

	"example.com/washrig/internal/ode"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// Ice at 0 °C.
const (
	freezing        = 273.15   // K, at 1 atm
	fusion          = 333.55e3 // J/kg; IAPWS R10-06(2009): 333.43, handbooks 333.55
	iceConductivity = 2.22     // W/(m·K); handbook value at 0 °C
	// solidShare counts as solid: the last thousandth freezes ever more slowly.
	solidShare = 0.999
)

// An Exposed part holds standing water in the cold: a coil, a hose, a pump head, a
// filter bowl.
type Exposed struct {
	Water     units.Volume
	Metal     units.Mass         // that cools with it: pump head, coil, or hose wall
	MetalHeat units.SpecificHeat // required with Metal
	Area      units.Area         // of the outside
	Diameter  units.Length       // of the outside, for convection
	Bore      units.Length       // of the passage that holds the water, for the ice that grows in it
	// Wall is the conductance of the wall per square metre of outside; zero for
	// a wall without resistance, such as metal.
	Wall       units.HeatTransferCoefficient
	Emissivity units.Ratio
}

// Exposed returns a full hose as a part that may freeze.
func (h Hose) Exposed() (Exposed, error) {
	if err := units.At("hose", h.wallValidate()); err != nil {
		return Exposed{}, err
	}
	d, D, L := float64(h.Bore), float64(h.Outside), float64(h.Length)
	e := Exposed{
		Water:      units.Volume(math.Pi / 4 * d * d * L),
		Metal:      units.Mass(float64(h.WallDensity) * math.Pi / 4 * (D*D - d*d) * L),
		MetalHeat:  h.WallHeat,
		Area:       units.Area(math.Pi * D * L),
		Diameter:   h.Outside,
		Bore:       h.Bore,
		Wall:       units.HeatTransferCoefficient(2 * float64(h.Conductivity) / (D * math.Log(D/d))),
		Emissivity: h.Emissivity,
	}
	return e, units.At("hose", e.Validate())
}

// Validate reports every field that cannot be used.
func (e Exposed) Validate() error {
	err := all(
		inside("water", e.Water, 1e-9, 100*units.CubicMeter),
		inside("metal", e.Metal, 0, 1e5*units.Kilogram),
		inside("area", e.Area, 1e-6, 1000*units.SquareMeter),
		partDiameter("diameter", e.Diameter),
		inside("bore", e.Bore, 0.5*units.Millimeter, 2*units.Meter),
		inside("wall", e.Wall, 0, 1e7),
		share("emissivity", e.Emissivity),
	)
	if e.Metal > 0 {
		err = all(err, inside("metalHeat", e.MetalHeat, 50, 5000))
	}
	return err
}

// A Freezing says when standing water freezes.
type Freezing struct {
	// Never is true if the part does not reach 0 °C in the surroundings given
	// within three years; then the times are zero.
	Never bool
	// Times from the start until the water is at 0 °C, until the share asked for
	// is ice, and until all is.
	ToFreezing, ToShare, ToSolid units.Duration
	Heat                         units.Power // leaving the part at 0 °C, before ice insulates it
}

// Freeze returns how long standing water takes to freeze.
//
//	C·dT/dt = −A·q(Ts),  (T − Ts)·k = q(Ts)      from start to 0 °C
//	m·L·dφ/dt = A·q(Ts)                           the share φ of ice, at 0 °C
//
// q is the heat from the surface by convection, radiation, evaporation and contact,
// k the conductance of the wall. Ice grows inwards in a round passage and insulates:
// its resistance is ln(1/(1 − φ))/(4π·ki) per metre. Parts burst long before they are
// solid, where the first plug closes a space; share lets the caller say how much ice
// is too much. Wind does not lower the end temperature but takes heat away faster:
// on the road hours become minutes. Water may stay liquid a few degrees below 0 °C
// for a while; nobody counts on that.
//
// Range: start from 0 °C to 100 °C, share above 0 up to 0.999.
//
// Source: first law; L = 333.55 kJ/kg, ki = 2.22 W/(m·K), handbook values.
// [PlankTime] and [CoolingTime] are its limits for constant coefficients.
func (e Exposed) Freeze(start units.Temperature, s Surroundings, share units.Ratio) (Freezing, error) {
	if err := all(units.At("part", e.Validate()), between("start", start, coldestWater, units.Celsius(99)), units.At("surroundings", s.Validate()), inside("share", share, 1e-3, solidShare)); err != nil {
		return Freezing{}, err
	}
	k, err := sinksOf(s, float64(e.Diameter), float64(e.Emissivity))
	if err != nil {
		return Freezing{}, units.At("surroundings", err)
	}
	R := 0.0
	if e.Wall > 0 {
		R = 1 / float64(e.Wall)
	}
	leaves := func(T, R float64) (float64, error) {
		Ts, err := k.through(T, R)
		return k.from(Ts).total(), err
	}
	return freeze(e, start.Kelvin(), float64(share), R, leaves)
}

// freeze is Freeze for heat that leaves, in W/m² of outside, water at T through the
// resistance R.
func freeze(e Exposed, T0, share, R float64, leaves func(T, R float64) (float64, error)) (Freezing, error) {
	A := float64(e.Area)
	q0, err := leaves(freezing, R)
	if err != nil {
		return Freezing{}, err
	}
	var f Freezing
	if q0 <= 0 {
		f.Never = true
		return f, nil
	}
	f.Heat = units.Power(A * q0)

	const p = 101325.0
	rho, err := water.Density(p, freezing)
	if err != nil {
		return Freezing{}, err
	}
	m := rho * float64(e.Water)
	metal := float64(e.Metal) * float64(e.MetalHeat)
	var solver ode.Solver
	var failed error
	fail := func(err error, d []float64) { failed, d[0] = err, math.NaN() }
	if T0 > freezing {
		y := []float64{T0}
		r, err := solver.Integrate(func(_ float64, y, d []float64) {
			q, err := leaves(y[0], R)
			if err != nil {
				fail(err, d)
				return
			}
			cp, err := water.HeatCapacity(p, math.Min(math.Max(y[0], freezing), 372.9))
			if err != nil {
				fail(err, d)
				return
			}
			d[0] = -A * q / (m*cp + metal)
		}, 0, float64(mostDelay), y, ode.Options{Relative: 1e-10, Absolute: []float64{1e-9}},
			ode.Event{G: func(_ float64, y []float64) float64 { return y[0] - freezing }, Direction: -1})
		if err != nil || failed != nil {
			return Freezing{}, &units.SolverError{Solver: "cooling", State: units.Kelvin(T0).String(), Iterations: r.Steps}
		}
		if r.Event < 0 {
			return Freezing{Never: true}, nil
		}
		f.ToFreezing = units.Duration(r.T)
	}

	// Time over the share of ice. The resistance of the ice in W/(m²·K)⁻¹ of
	// outside: A·ln(1/(1 − φ))/(4π·ki·l), l the length of passage.
	l := float64(e.Water) / (math.Pi / 4 * float64(e.Bore) * float64(e.Bore))
	y := []float64{0}
	grow := func(from, to float64) error {
		r, err := solver.Integrate(func(phi float64, _, d []float64) {
			q, err := leaves(freezing, R-A*math.Log1p(-phi)/(4*math.Pi*iceConductivity*l))
			if err != nil || !(q > 0) {
				fail(err, d)
				return
			}
			d[0] = m * fusion / (A * q)
		}, from, to, y, ode.Options{Relative: 1e-8, Absolute: []float64{1e-6}})
		if err != nil {
			return &units.SolverError{Solver: "growth of ice", State: units.Ratio(r.T).String(), Iterations: r.Steps}
		}
		return nil
	}
	if err := grow(0, share); err != nil {
		return Freezing{}, err
	}
	f.ToShare = f.ToFreezing + units.Duration(y[0])
	if err := grow(share, solidShare); err != nil {
		return Freezing{}, err
	}
	f.ToSolid = f.ToFreezing + units.Duration(y[0])
	if !finite(float64(f.ToSolid)) || f.ToFreezing > mostDelay {
		return Freezing{Never: true}, nil
	}
	return f, nil
}

// CoolingTime returns how long standing water in a long pipe takes to cool from
// start to end when the resistance to the air is constant.
//
//	θ = ρ·cp·π·(d/2)²·R·ln[(t1 − ta)/(t2 − ta)]
//
// R is the resistance of wall, insulation and air film for a length of pipe, in
// kelvins per watt for one metre: its inverse is given as conductance per metre.
// The heat of the pipe and the freezing itself are not in it. ρ and cp are those of
// water at 60 °F, 999.0 kg/m³ and 4,189 J/(kg·K).
//
// Range: bore 1 mm to 2 m, air below end, end below start.
//
// Source: ASHRAE Handbook — Fundamentals (2009), chapter 23, Eq. 1.
func CoolingTime(bore units.Length, perMetre units.ThermalConductance, start, end, air units.Temperature) (units.Duration, error) {
	if err := all(
		partDiameter("bore", bore), inside("perMetre", perMetre, 1e-6, 1e6),
		between("start", start, coldestWater, hottestWater), between("end", end, units.Celsius(-40), hottestWater),
		between("air", air, units.Celsius(-80), hottestWater),
	); err != nil {
		return 0, err
	}
	if end.Kelvin() > start.Kelvin() || air.Kelvin() > end.Kelvin()-1e-6 {
		return 0, refuse("end", end.String(), "between the air's "+air.String()+" and the start's "+start.String(), units.ErrConflict)
	}
	r := float64(bore) / 2
	capacity := 999.0156 * 4188.530 * math.Pi * r * r
	return units.Duration(capacity / float64(perMetre) * math.Log(float64(start.Sub(air))/float64(end.Sub(air)))), nil
}

// PlankTime returns how long water at its freezing point takes to freeze through in
// a long round passage with a constant coefficient at its wall.
//
//	t = ρ·L/(T0 − Ta)·[d/(4h) + d²/(16k)]
//
// Range: bore 0.5 mm to 2 m, coefficient 0.1 to 1e6 W/(m²·K), air below 0 °C.
//
// Source: R. Plank, "Beiträge zur Berechnung und Bewertung der
// Gefriergeschwindigkeit von Lebensmitteln", 1941; with the constants 1/4 and 1/16
// of a cylinder in any text on food engineering. ρ·L of water at 0 °C, k of ice.
func PlankTime(bore units.Length, outside units.HeatTransferCoefficient, air units.Temperature) (units.Duration, error) {
	if err := all(inside("bore", bore, 0.5*units.Millimeter, 2*units.Meter), inside("outside", outside, 0.1, 1e6), between("air", air, units.Celsius(-100), units.Celsius(-0.001))); err != nil {
		return 0, err
	}
	const density = 999.8426 // kg/m³ at 0 °C
	return units.Duration(plank(float64(bore), float64(outside), iceConductivity, density*fusion, freezing-air.Kelvin())), nil
}

// plank is Plank's equation for a cylinder; heat in J/m³.
func plank(d, h, k, heat, dT float64) float64 { return heat / dT * (d/(4*h) + d*d/(16*k)) }
