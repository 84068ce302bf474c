package rig

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/water"
	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// serviceIn is what oil nozzle, stack, soot, scale and thermal relief depend on.
type serviceIn struct {
	work
	axes     *axisSet
	lines    *block[linesIn]
	site     units.AbsolutePressure
	water    units.Temperature
	hours    []hour
	hardness units.Density
	heaters  []servedIn
	pumps    []dumpedIn
}

type servedIn struct {
	id, pump    string
	fire        fire
	fuel        string
	flue        FlueReading
	soot, scale units.Length
	thermostat  units.Temperature
	coil        bool
	tube        thermal.Tube
	roughness   units.Length
	guards      int // switches that stop the burner without flow
}

type dumpedIn struct {
	id      string
	setting units.Temperature
}

func (m *Model) serviceInput(lines *block[linesIn]) serviceIn {
	s := m.spec
	in := serviceIn{axes: m.axes, lines: lines, site: standardAtmosphere, water: s.Site.Water, hours: m.hours(), hardness: s.Site.Hardness}
	if p, ok := sitePressure(s); ok {
		in.site = p
	}
	for i := range s.Heaters {
		h := &s.Heaters[i]
		x := servedIn{id: h.ID, pump: h.Pump, fire: fireOf(h), fuel: h.Fuel, flue: h.Stack, soot: h.Soot, scale: h.Scale, thermostat: h.Thermostat, roughness: h.CoilRoughness}
		for _, w := range []string{h.FlowSwitch, h.PressureSwitch} {
			if w == "yes" {
				x.guards++
			}
		}
		if coilGiven(h) && h.Steel != 0 {
			x.tube = tubeOf(h)
			x.coil = x.tube.Validate() == nil
		}
		in.heaters = append(in.heaters, x)
	}
	for i := range s.Pumps {
		if p := &s.Pumps[i]; p.ThermalRelief.Setting.Given() {
			in.pumps = append(in.pumps, dumpedIn{p.ID, p.ThermalRelief.Setting})
		}
	}
	return in
}

// solveService returns the numbers of oil nozzle, stack, soot, scale and thermal
// relief.
func solveService(in *serviceIn) ([]*numbers, error) {
	fixed := in.newNumbers(in.one(in.axes))
	put := func(m *Metric, part string, v float64) { fixed.row(m, part)[0] = v }
	hourly := fixed
	var byHour *numbers
	if len(in.hours) > 0 {
		states := in.room(len(in.hours))
		for _, h := range in.hours {
			states = append(states, State{set: in.axes}.with(AxisSite, h.state))
		}
		hourly = in.newNumbers(states)
		byHour = hourly
	}
	for i := range in.heaters {
		h := &in.heaters[i]
		put(mFlowGuards, h.id, float64(h.guards))
		r, has, err := h.fire.rate()
		if err != nil {
			return nil, err
		}
		if has {
			row := hourly.row(mNozzleFiring, h.id)
			for k := range row {
				row[k] = float64(r)
			}
		}
		if h.flue != (FlueReading{}) {
			c, _, err := burn(h.fuel, h.flue, in.site)
			if err != nil {
				return nil, err
			}
			put(mStackEfficiency, h.id, float64(c.Efficiency))
			if c.DewPoint.Given() {
				put(mDewPoint, h.id, c.DewPoint.Kelvin())
			}
			loss, err := siegert(h.fuel, h.flue)
			if err == nil {
				put(mSiegert, h.id, float64(loss))
			} else if !outside(err) {
				return nil, err
			}
		}
	}
	for _, p := range in.pumps {
		put(mThermalReliefSetting, p.id, p.setting.Kelvin())
	}

	lines, err := in.lines.within(in.w)
	if err != nil {
		return nil, err
	}
	relief, err := in.relief(lines)
	if err != nil {
		return nil, err
	}
	g, ok := scratch[gunStates](in.w).of(lines, in.axes)
	if !ok {
		return in.list(fixed, byHour, relief), nil
	}
	n := in.newNumbers(append(in.room(1), State{set: in.axes}.with(AxisGuns, int(g.all)).with(AxisHeat, heatSteady)))
	for i := range in.heaters {
		if err := in.coil(&in.heaters[i], g, n); err != nil {
			return nil, err
		}
	}
	return in.list(fixed, byHour, relief, n), nil
}

func siegert(fuel string, r FlueReading) (units.Ratio, error) {
	f := siegertFuel(fuel)
	if r.CarbonDioxide != 0 {
		return f.LossByCarbonDioxide(r.Temperature, r.Air, r.CarbonDioxide)
	}
	return f.LossByOxygen(r.Temperature, r.Air, r.Oxygen)
}

// relief is the flow that thermal relief valves must pass while every gun is
// closed.
func (in *serviceIn) relief(lines []*numbers) (*numbers, error) {
	if len(lines) == 0 || len(in.pumps) == 0 {
		return nil, nil
	}
	at := -1
	for i, s := range lines[0].states {
		if s.v[AxisGuns] == 1 && s.v[AxisHeat] <= heatOff {
			at = i
		}
	}
	if at < 0 {
		return nil, nil
	}
	n := in.newNumbers(append(in.room(1), lines[0].states[at]))
	for _, p := range in.pumps {
		q, pressure := lines[0].of(mBypass, p.id), lines[0].of(mPumpPressure, p.id)
		if q == nil || pressure == nil || math.IsNaN(q[at]) || math.IsNaN(pressure[at]) || q[at] <= 0 || pressure[at] <= 0 || p.setting.Kelvin() < in.water.Kelvin()+0.1 || !liquidBelow(in.site, p.setting.Kelvin()) {
			continue
		}
		power, err := hydraulics.HydraulicPower(units.VolumeFlow(q[at]), units.Pressure(pressure[at]))
		if err != nil {
			return nil, err
		}
		f, err := thermal.ThermalReliefFlow(power, in.water, p.setting, in.site)
		if err != nil {
			return nil, err
		}
		n.row(mThermalReliefNeeded, p.id)[0] = float64(f)
	}
	return n, nil
}

// scaledRise is the growth of the coil's pressure loss at which it is cleaned,
// common practice.
const scaledRise = 100 * units.PSI

// coil adds what soot and scale do to a coil.
func (in *serviceIn) coil(h *servedIn, g *gunStates, n *numbers) error {
	asked, ok := g.at(mHeat, h.id, g.all)
	p, ok2 := g.at(mPumpPressure, h.pump, g.all)
	if !h.coil || !ok || !ok2 || asked <= 0 {
		return nil
	}
	q := units.VolumeFlow(g.through(&in.lines.in, h.pump, g.all))
	line := lineAbsolute(p, in.site)
	mass, err := thermal.MassFlow(q, in.water, line)
	if err != nil {
		return err
	}
	if mass < 1*units.GramPerSecond || mass > 100*units.KilogramPerSecond {
		return nil
	}
	d, l := float64(h.tube.Bore), float64(h.tube.Length)
	if h.soot != 0 || h.scale != 0 {
		out, err := h.fire.output(units.Power(asked))
		if err != nil {
			return err
		}
		c, _, err := burn(h.fuel, h.flue, in.site)
		if err != nil {
			return err
		}
		air := h.flue.Air
		if !air.Given() {
			air = units.Fahrenheit(60)
		}
		// The clean efficiency that the plate gives, on the lower heating value.
		share := float64(c.EfficiencyOnLower) / float64(c.Efficiency)
		eff := math.Min(float64(h.fire.efficiency)*share, 0.98)
		coil := thermal.FiredCoil{Input: out / units.Power(eff), Efficiency: thermal.EfficiencyLHV(eff), Flame: c.Flame, Air: air, Inlet: in.water, Flow: mass,
			Outside: units.Area(math.Pi * float64(h.tube.Outside) * l), Inside: units.Area(math.Pi * d * l)}
		x, err := coil.With(thermal.Layer{Thickness: h.soot, Conductivity: sootConductivity}, thermal.Layer{Thickness: h.scale, Conductivity: scaleConductivity})
		if err == nil {
			n.row(mFoulingLoss, h.id)[0] = float64(x.Lost) / (float64(x.Heat) + float64(x.Lost))
		} else if !outside(err) {
			return err
		}
	}
	if in.hardness == 0 || !h.thermostat.Given() || h.thermostat.Kelvin() <= in.water.Kelvin() || !liquidBelow(line, h.thermostat.Kelvin()) {
		return nil
	}
	mid := units.Kelvin((in.water.Kelvin() + h.thermostat.Kelvin()) / 2)
	w, err := water.At(float64(line), mid.Kelvin())
	if err != nil {
		return err
	}
	v := float64(mass) / (w.Density * math.Pi / 4 * d * d)
	f := hydraulics.CoilFrictionFactor(w.Density*v*d/w.Viscosity, float64(h.roughness)/d, d/float64(h.tube.Helix))
	clean := units.Pressure(f * l / d * w.Density * v * v / 2)
	deposit, err := thermal.TypicalDeposit(h.thermostat)
	if err != nil {
		return err
	}
	e, err := thermal.Scaling{Hardness: units.Ratio(float64(in.hardness) / w.Density), Deposited: deposit.Usual, Flow: q, Bore: h.tube.Bore, Length: h.tube.Length}.TimeToLoss(clean, scaledRise)
	if err == nil && !e.Never {
		n.row(mScaleTime, h.id)[0] = float64(e.Time)
	} else if err != nil && !outside(err) {
		return err
	}
	return nil
}
