package thermal

import (
	"math"

	"example.com/washrig/units"
)

// A FiredCoil is a clean heater as a heat exchanger: flue gas against water in
// counter-flow.
type FiredCoil struct {
	Input      units.Power       // heat of the fuel, on the lower heating value
	Efficiency EfficiencyLHV     // clean, as measured in the stack or rated
	Flame      units.Temperature // of the gas, [Combustion].Flame
	Air        units.Temperature // of the combustion air
	Inlet      units.Temperature // of the water
	Flow       units.MassFlow    // of the water
	Outside    units.Area        // of the tube, towards the gas
	Inside     units.Area        // of the tube, towards the water
}

// A Layer is what lies on a surface.
type Layer struct {
	Thickness    units.Length
	Conductivity units.ThermalConductivity // soot about 0.1, carbonate scale 1 to 2.5 W/(m·K)
}

// A Coupling is how a coil takes up heat.
type Coupling struct {
	Heat        units.Power // into the water
	Efficiency  EfficiencyLHV
	Stack       units.Temperature
	Rise        units.TemperatureDelta   // of the water
	Conductance units.ThermalConductance // UA, layers included
	Clean       units.ThermalConductance // UA without
	Lost        units.Power              // heat that the layers cost
}

// With returns what layers of soot outside and scale inside make of a coil.
//
//	Cg = Input/(Flame − Air),  ε = η·(Flame − Air)·Cg/(Cmin·(Flame − Inlet))
//	UA = Cmin·N(ε),  1/UA′ = 1/UA + s/(k·A) outside + s/(k·A) inside
//
// N is the number of transfer units in counter-flow ([CounterflowUnits]); the clean
// conductance follows from the clean efficiency, and the fouled efficiency from the
// fouled conductance. Gas of constant heat capacity, water of 4,186 J/(kg·K), radiation of the flame lumped
// into the conductance, no loss from the casing. Soot costs far more than scale of
// the same thickness; what scale does is heat the metal.
//
// Range: efficiency 0.2 to 0.98 and below what an endless coil could reach; layers to
// 10 mm; conductivities 0.01 to 10 W/(m·K).
//
// Source: effectiveness–NTU method, W. M. Kays and A. L. London, Compact Heat
// Exchangers, 3rd edition, 1984.
func (c FiredCoil) With(soot, scale Layer) (Coupling, error) {
	if err := all(
		inside("input", c.Input, 100*units.Watt, mostHeat),
		inside("efficiency", c.Efficiency, 0.2, 0.98),
		between("flame", c.Flame, units.Kelvin(600), units.Kelvin(3500)),
		between("air", c.Air, coldestAir, hottestAir),
		between("inlet", c.Inlet, coldestWater, hottestWater),
		hoseFlow(c.Flow),
		inside("outside", c.Outside, 0.001, 1000), inside("inside", c.Inside, 0.001, 1000),
		soot.validate("soot"), scale.validate("scale"),
	); err != nil {
		return Coupling{}, err
	}
	Tf, Ta, Ti := c.Flame.Kelvin(), c.Air.Kelvin(), c.Inlet.Kelvin()
	if Tf-Ti < 50 {
		return Coupling{}, refuse("inlet", c.Inlet.String(), "50 K or more below the flame", units.ErrConflict)
	}
	const waterHeat = 4186 // J/(kg·K); the ratio of capacities hardly feels it
	Cg, Cw := float64(c.Input)/(Tf-Ta), float64(c.Flow)*waterHeat
	Cmin, Cmax := math.Min(Cg, Cw), math.Max(Cg, Cw)
	heat := float64(c.Efficiency) * float64(c.Input)
	e := heat / (Cmin * (Tf - Ti))
	if e > 0.9999 {
		return Coupling{}, refuse("efficiency", c.Efficiency.String(), "less than an endless coil would reach with this flame and inlet, "+units.Ratio(0.9999*Cmin*(Tf-Ti)/float64(c.Input)).String(), units.ErrConflict)
	}
	clean := Cmin * CounterflowUnits(e, Cmin/Cmax)
	R := 1/clean + soot.resistance(float64(c.Outside)) + scale.resistance(float64(c.Inside))
	fouled := heat
	if soot.Thickness > 0 || scale.Thickness > 0 {
		fouled = Cmin * (Tf - Ti) * CounterflowEffectiveness(1/(R*Cmin), Cmin/Cmax)
	}
	return Coupling{
		Heat:        units.Power(fouled),
		Efficiency:  EfficiencyLHV(fouled / float64(c.Input)),
		Stack:       units.Kelvin(Tf - fouled/Cg),
		Rise:        units.TemperatureDelta(fouled / Cw),
		Conductance: units.ThermalConductance(1 / R),
		Clean:       units.ThermalConductance(clean),
		Lost:        units.Power(math.Max(0, heat-fouled)),
	}, nil
}

func (l Layer) validate(path string) error {
	err := inside("thickness", l.Thickness, 0, 10*units.Millimeter)
	if l.Thickness > 0 {
		err = all(err, inside("conductivity", l.Conductivity, 0.01, 10))
	}
	return units.At(path, err)
}

func (l Layer) resistance(area float64) float64 {
	if l.Thickness == 0 {
		return 0
	}
	return float64(l.Thickness) / (float64(l.Conductivity) * area)
}

// A Tube is the tube of a coil.
type Tube struct {
	Bore, Outside, Length units.Length
	Helix                 units.Length              // diameter to which it is wound, centre to centre
	Conductivity          units.ThermalConductivity // of its wall: steel about 50 W/(m·K)
}

// Conductance returns the conductance from the outside of the metal to the water:
// film inside, wall, and scale.
//
//	1/K = 1/(hi·π·d·L) + ln(D/d)/(2π·k·L) + s/(ks·π·d·L)
//
// hi is by [SchmidtCoil]. It is what [Heater].Conductance asks for.
//
// Range: flow 1 g/s to 100 kg/s, bore 1 mm to 200 mm, helix at least 5 times the
// bore; water liquid.
func (t Tube) Conductance(flow units.MassFlow, at units.Temperature, line units.AbsolutePressure, scale Layer) (units.ThermalConductance, error) {
	if err := all(units.At("tube", t.Validate()), hoseFlow(flow), between("at", at, coldestWater, hottestWater), linePressure("line", line), scale.validate("scale")); err != nil {
		return 0, err
	}
	if err := liquidAt("at", float64(line), at.Kelvin()); err != nil {
		return 0, err
	}
	d, D, L := float64(t.Bore), float64(t.Outside), float64(t.Length)
	hi, err := filmInCoil(float64(flow), float64(line), at.Kelvin(), d, float64(t.Helix))
	if err != nil {
		return 0, units.At("at", err)
	}
	R := 1/(hi*math.Pi*d*L) + math.Log(D/d)/(2*math.Pi*float64(t.Conductivity)*L) + scale.resistance(math.Pi*d*L)
	return units.ThermalConductance(1 / R), nil
}

// Water returns the volume inside.
func (t Tube) Water() (units.Volume, error) {
	if err := units.At("tube", t.Validate()); err != nil {
		return 0, err
	}
	d := float64(t.Bore)
	return units.Volume(math.Pi / 4 * d * d * float64(t.Length)), nil
}

// Metal returns the mass of the wall.
func (t Tube) Metal(density units.Density) (units.Mass, error) {
	if err := all(units.At("tube", t.Validate()), inside("density", density, 500, 25000)); err != nil {
		return 0, err
	}
	d, D := float64(t.Bore), float64(t.Outside)
	return units.Mass(math.Pi / 4 * (D*D - d*d) * float64(t.Length) * float64(density)), nil
}

// Validate reports every field that cannot be used.
func (t Tube) Validate() error {
	err := all(
		inside("bore", t.Bore, 1*units.Millimeter, 200*units.Millimeter),
		inside("outside", t.Outside, 1*units.Millimeter, 300*units.Millimeter),
		inside("length", t.Length, 0.1*units.Meter, 2000*units.Meter),
		inside("helix", t.Helix, 5*units.Millimeter, 10*units.Meter),
		inside("conductivity", t.Conductivity, 1, 500),
	)
	if err == nil && t.Outside <= t.Bore*(1+1e-9) {
		err = refuse("outside", t.Outside.String(), "more than the bore, "+t.Bore.String(), units.ErrConflict)
	}
	if err == nil && t.Helix < 5*t.Bore {
		err = refuse("helix", t.Helix.String(), "at least 5 times the bore, "+t.Bore.String(), units.ErrConflict)
	}
	return err
}
