package thermal

import (
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// A Phase is the state of the water that leaves a heater.
type Phase uint8

// The zero Phase is invalid.
const (
	Liquid   Phase = iota + 1
	TwoPhase       // boiling: liquid and steam at the saturation temperature
	Steam          // all steam
	// Runaway: the heat finds no water to carry it away. The flow is zero,
	// or so small that the outlet would pass 350 °C, the end of the tables
	// used. This is dangerous: the coil boils dry, bursts or burns through.
	Runaway
)

var phaseNames = [...]string{"invalid phase", "liquid", "liquid and steam", "steam", "runaway"}

// String returns the phase in words.
func (p Phase) String() string {
	if int(p) >= len(phaseNames) {
		p = 0
	}
	return phaseNames[p]
}

// An Outlet is the state of the water that leaves a heater.
type Outlet struct {
	Phase       Phase
	Temperature units.Temperature      // not given if Runaway
	Quality     units.Ratio            // mass of steam over the whole: 0 in liquid, 1 in steam and if Runaway
	Enthalpy    units.SpecificEnthalpy // 0 if Runaway
	Boiling     units.Temperature      // under the line pressure; not given above the critical pressure
	MassFlow    units.MassFlow
}

// HeatRequired returns the heat that takes flow from in to out at the absolute
// pressure in the line.
//
//	Q̇ = ρ(p, T1)·Q·(h(p, T2) − h(p, T1))
//
// Q is the flow metered cold, that is at the inlet temperature and the line
// pressure, ρ the density and h the enthalpy of water. Both enthalpies stand at
// the line pressure, so neither the work of the pump (see [PumpWarming]) nor the
// warming in a valve or nozzle behind the heater ([ThrottleWarming]) is in Q̇.
//
// Range: water from 0 °C to 350 °C, 10 kPa to 50 MPa, liquid at the inlet. An
// outlet above the boiling point asks for steam of that temperature; out below in
// gives a negative heat. Zero flow needs none.
//
// Source: first law; IAPWS-IF97. [RuleOf500] is what the trade uses instead.
func HeatRequired(flow units.VolumeFlow, in, out units.Temperature, line units.AbsolutePressure) (units.Power, error) {
	if err := all(
		flowing("flow", flow),
		between("in", in, coldestWater, hottestWater),
		between("out", out, coldestWater, hottestWater),
		linePressure("line", line),
	); err != nil {
		return 0, err
	}
	p := float64(line)
	if err := liquidAt("in", p, in.Kelvin()); err != nil {
		return 0, err
	}
	rho, hIn, _, err := water.Caloric(p, in.Kelvin())
	if err != nil {
		return 0, units.At("in", err)
	}
	h, err := water.Enthalpy(p, out.Kelvin())
	if err != nil {
		return 0, units.At("out", err)
	}
	return units.Power(rho * float64(flow) * (h - hIn)), nil
}

// OutletTemperature returns what becomes of flow, metered cold at in, when it
// takes up heat at the absolute pressure in the line: the inverse of
// [HeatRequired].
//
//	h2 = h(p, T1) + Q̇/(ρ(p, T1)·Q)
//
// Above the enthalpy of boiling liquid the outlet is a mixture of liquid and
// steam at the saturation temperature, with quality x = (h2 − h′)/(h″ − h′), and
// beyond that steam. Heat without flow, and an outlet above 350 °C, is
// [Runaway], not an error: it can happen to a rig and is dangerous. No heat
// leaves the water as it was.
//
// Range: heat of 0 to 10 MW; otherwise as [HeatRequired].
func OutletTemperature(flow units.VolumeFlow, in units.Temperature, heat units.Power, line units.AbsolutePressure) (Outlet, error) {
	if err := all(
		flowing("flow", flow),
		between("in", in, coldestWater, hottestWater),
		heating("heat", heat),
		linePressure("line", line),
	); err != nil {
		return Outlet{}, err
	}
	p, T := float64(line), in.Kelvin()
	if err := liquidAt("in", p, T); err != nil {
		return Outlet{}, err
	}
	rho, hIn, _, err := water.Caloric(p, T)
	if err != nil {
		return Outlet{}, units.At("in", err)
	}
	o := Outlet{MassFlow: units.MassFlow(rho * float64(flow))}
	if boils, ok := boilingAt(p); ok {
		o.Boiling = units.Kelvin(boils)
	}
	if heat == 0 {
		o.Phase, o.Temperature, o.Enthalpy = Liquid, in, units.SpecificEnthalpy(hIn)
		return o, nil
	}
	h := hIn + float64(heat)/float64(o.MassFlow)
	m, err := water.Flash(p, h) // an infinite h is out of its range
	if err != nil {
		o.Phase, o.Quality = Runaway, 1
		return o, nil
	}
	o.Temperature, o.Quality, o.Enthalpy = units.Kelvin(m.Temperature), units.Ratio(m.Quality), units.SpecificEnthalpy(h)
	switch m.Phase {
	case water.Liquid:
		o.Phase = Liquid
	case water.TwoPhase:
		o.Phase = TwoPhase
	default:
		o.Phase = Steam
	}
	return o, nil
}

// ruleOf500 is 500 BTU/h per gpm and °F, in J/(m³·K).
const ruleOf500 = 500 * float64(units.BTUPerHour) / (float64(units.GallonPerMinute) * float64(units.FahrenheitDelta))

// RuleOf500 returns the heat by the rule of thumb
//
//	Q̇[BTU/h] = 500·gpm·ΔT[°F]
//
// which rounds 60 min/h × 8.34 lb/gal × 1 BTU/(lb·°F) = 500.4. Common practice;
// within 0.8 % of [HeatRequired] from 40 °F to 250 °F and 0 to 4,000 psi
// (TestRuleOf500_sweep). A negative rise gives a negative heat.
func RuleOf500(flow units.VolumeFlow, rise units.TemperatureDelta) (units.Power, error) {
	if err := all(flowing("flow", flow), inside("rise", rise, -1000, 1000)); err != nil {
		return 0, err
	}
	return units.Power(ruleOf500 * float64(flow) * float64(rise)), nil
}

// RiseByRuleOf500 returns the rise that heat gives to flow by the rule of
// [RuleOf500]. The flow must not be zero.
func RiseByRuleOf500(flow units.VolumeFlow, heat units.Power) (units.TemperatureDelta, error) {
	if err := all(positive("flow", flow, mostFlow), heating("heat", heat)); err != nil {
		return 0, err
	}
	rise := units.TemperatureDelta(float64(heat) / (ruleOf500 * float64(flow)))
	if !finite(float64(rise)) {
		return 0, refuse("flow", flow.String(), "a flow that the heat does not take to infinity", units.ErrRange)
	}
	return rise, nil
}

// A Duty is the heat a job asks for, exact and by rule of thumb.
type Duty struct {
	Heat       units.Power            // exact, [HeatRequired]
	Rise       units.TemperatureDelta // outlet less inlet
	MassFlow   units.MassFlow         //
	Rule       units.Power            // by [RuleOf500], common practice
	Difference units.Ratio            // (Rule − Heat)/Heat; 0 if Heat is 0
}

// HeatingDuty returns [HeatRequired] beside [RuleOf500]. Range as HeatRequired.
func HeatingDuty(flow units.VolumeFlow, in, out units.Temperature, line units.AbsolutePressure) (Duty, error) {
	heat, err := HeatRequired(flow, in, out, line)
	if err != nil {
		return Duty{}, err
	}
	m, err := MassFlow(flow, in, line)
	if err != nil {
		return Duty{}, err
	}
	d := Duty{Heat: heat, Rise: out.Sub(in), MassFlow: m}
	if d.Rule, err = RuleOf500(flow, d.Rise); err != nil {
		return Duty{}, err
	}
	if heat != 0 {
		d.Difference = units.Ratio((d.Rule - heat) / heat)
	}
	return d, nil
}
