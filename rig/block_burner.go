package rig

import (
	"math"
	"sort"

	"example.com/washrig/internal/water"
	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// burnerIn is what warm-up, cycles, faults and heat soak depend on.
type burnerIn struct {
	work
	axes    *axisSet
	lines   *block[linesIn]
	site    units.AbsolutePressure
	known   bool
	water   units.Temperature
	wanted  units.Temperature // at the gun
	heaters []firedIn
}

// A firedIn is a heater whose coil and thermostat are given.
type firedIn struct {
	id, pump     string
	fire         fire
	fuel         string
	tube         thermal.Tube
	steel        units.Mass
	thermostat   thermal.Thermostat
	high         units.Temperature
	relief       units.Pressure
	unloader     units.Pressure
	flue         FlueReading
	hoses        units.Volume // from the heater to its guns
	grow         units.Volume // of those hoses for a rise of growAt
	soot, scale  units.Length
	insideOfCoil units.Volume
}

// growAt is the pressure rise that the growth of hoses is counted for.
const growAt = 3000 * units.PSI

// Conductivities of layers and of the tube's wall, W/(m·K): soot, carbonate
// scale, carbon steel; common handbook values.
const (
	sootConductivity  units.ThermalConductivity = 0.1
	scaleConductivity units.ThermalConductivity = 1.5
	steelConductivity units.ThermalConductivity = 50
)

func tubeOf(h *Heater) thermal.Tube {
	d := float64(h.CoilBore)
	return thermal.Tube{Bore: h.CoilBore, Outside: units.Length(math.Sqrt(d*d + float64(h.Steel)/(math.Pi/4*float64(steelDensity)*float64(h.CoilLength)))),
		Length: h.CoilLength, Helix: h.HelixDiameter, Conductivity: steelConductivity}
}

func (m *Model) burnerInput(b *blocks) burnerIn {
	s := m.spec
	in := burnerIn{axes: m.axes, lines: b.lines, site: standardAtmosphere, water: s.Site.Water, wanted: s.Duty.GunTemperature}
	if p, ok := sitePressure(s); ok {
		in.site, in.known = p, true
	}
	for i := range s.Heaters {
		h := &s.Heaters[i]
		if !coilGiven(h) || !h.Thermostat.Given() || h.Steel == 0 {
			continue
		}
		f := firedIn{id: h.ID, pump: h.Pump, fire: fireOf(h), fuel: h.Fuel, tube: tubeOf(h), steel: h.Steel, high: h.HighLimit, relief: h.Relief, flue: h.Stack, soot: h.Soot, scale: h.Scale,
			thermostat: thermal.Thermostat{Setting: h.Thermostat, Differential: h.Differential, StopDelay: h.StopDelay, FireDelay: h.FireDelay}}
		v, err := f.tube.Water()
		if err != nil {
			continue // a helix tighter than the correlations cover
		}
		f.insideOfCoil = v
		for k := range s.Pumps {
			if s.Pumps[k].ID == h.Pump {
				f.unloader = s.Pumps[k].Unloader.Setting
			}
		}
		type vessel struct {
			id string
			h  *Hose
		}
		var hoses []vessel
		for k := range s.Trunks {
			if s.Trunks[k].Pump == h.Pump {
				hoses = append(hoses, vessel{"trunk " + s.Trunks[k].ID, &s.Trunks[k].Hose})
			}
		}
		for k := range s.Lines {
			if s.Lines[k].Pump == h.Pump {
				hoses = append(hoses, vessel{"line " + s.Lines[k].ID, &s.Lines[k].Hose})
			}
		}
		sort.Slice(hoses, func(a, b int) bool { return hoses[a].id < hoses[b].id })
		for _, x := range hoses {
			v := units.Volume(math.Pi / 4 * float64(x.h.Bore) * float64(x.h.Bore) * float64(x.h.Length))
			at := x.h.MaximumPressure
			if at == 0 {
				at = growAt
			}
			f.hoses += v
			f.grow += v * units.Volume(float64(x.h.Expansion)*float64(growAt)/float64(at))
		}
		in.heaters = append(in.heaters, f)
	}
	return in
}

// A firing is a heater at the flow of some open guns.
type firing struct {
	ok     bool
	heater thermal.Heater
	feed   thermal.Feed
	mass   units.MassFlow
}

// firing builds the heater at the flow of some guns.
func (f *firedIn) firing(in *burnerIn, g *gunStates, guns uint16) (firing, error) {
	asked, ok := g.at(mHeat, f.id, g.all)
	p, ok2 := g.at(mPumpPressure, f.pump, guns)
	if !ok || !ok2 || asked <= 0 {
		return firing{}, nil
	}
	q := units.VolumeFlow(g.through(&in.lines.in, f.pump, guns))
	line := lineAbsolute(p, in.site)
	hot := f.thermostat.Setting
	if q <= 0 || hot.Kelvin() <= in.water.Kelvin() || !liquidBelow(line, hot.Kelvin()+40) {
		return firing{}, nil
	}
	out, err := f.fire.output(units.Power(asked))
	if err != nil {
		return firing{}, err
	}
	x := firing{feed: thermal.Feed{Flow: q, In: in.water, Line: line}}
	if x.mass, err = thermal.MassFlow(q, in.water, line); err != nil {
		return firing{}, err
	}
	if x.mass < 1*units.GramPerSecond || x.mass > 100*units.KilogramPerSecond {
		return firing{}, nil
	}
	k, err := f.tube.Conductance(x.mass, hot, line, thermal.Layer{Thickness: f.scale, Conductivity: scaleConductivity})
	if err != nil {
		if outside(err) {
			return firing{}, nil
		}
		return firing{}, err
	}
	x.heater = thermal.Heater{Output: out, Metal: f.steel, MetalHeat: steelHeat, Water: f.insideOfCoil, Conductance: k}
	x.ok = x.heater.Validate() == nil
	return x, nil
}

// solveBurner returns the numbers of warm-up, cycles, faults and heat soak.
func solveBurner(in *burnerIn) ([]*numbers, error) {
	lines, err := in.lines.within(in.w)
	if err != nil {
		return nil, err
	}
	g, ok := scratch[gunStates](in.w).of(lines, in.axes)
	if !ok || len(in.heaters) == 0 {
		return nil, nil
	}
	state := func(guns uint16, heat int) State {
		return State{set: in.axes}.with(AxisGuns, int(guns)).with(AxisHeat, heat)
	}
	steady, stuck := in.room(len(g.few)), in.room(len(g.few))
	for _, guns := range g.few {
		steady, stuck = append(steady, state(guns, heatSteady)), append(stuck, state(guns, heatStuck))
	}
	run, fault := in.newNumbers(steady), in.newNumbers(stuck)
	every, still := in.newNumbers(append(in.room(1), state(g.all, heatSteady))), in.newNumbers(append(in.room(1), state(1, heatStuck)))
	for i := range in.heaters {
		f := &in.heaters[i]
		run.row(mCycleTime, f.id)
		run.row(mCycleHighest, f.id)
		run.row(mReleasePeak, f.id)
		time, highest, peak := run.of(mCycleTime, f.id), run.of(mCycleHighest, f.id), run.of(mReleasePeak, f.id)
		hot := fault.row(mFaultHighest, f.id)
		for k, guns := range g.few {
			if j := in.alike(f, g, k); j >= 0 { // the same flow and pressure
				time[k], highest[k], peak[k], hot[k] = time[j], highest[j], peak[j], hot[j]
				continue
			}
			x, err := f.firing(in, g, guns)
			if err != nil {
				return nil, err
			}
			if !x.ok {
				continue
			}
			c, err := x.heater.Cycle(x.feed, f.thermostat)
			if outside(err) {
				continue
			} else if err != nil {
				return nil, err
			}
			if c.Regime == thermal.Cycling {
				time[k] = float64(c.Fire + c.Pause)
			}
			highest[k] = c.Highest.Kelvin()
			r, err := x.heater.Release(x.feed.Line, c.CutOut, f.thermostat.StopDelay)
			if err == nil {
				peak[k] = math.Max(r.Peak.Kelvin(), c.Highest.Kelvin())
			} else if !outside(err) {
				return nil, err
			}
			if err := f.stuck(in, x, hot, k); err != nil {
				return nil, err
			}
			if guns == g.all {
				if err := f.everyGun(in, x, c, every, still); err != nil {
					return nil, err
				}
			}
		}
	}
	return in.out(run, fault, every, still), nil
}

// alike is a set of guns before the k-th that asks the same of a heater, −1 if there is
// none.
func (in *burnerIn) alike(f *firedIn, g *gunStates, k int) int {
	if k == 0 {
		return -1
	}
	q := g.through(&in.lines.in, f.pump, g.few[k])
	p, _ := g.at(mPumpPressure, f.pump, g.few[k])
	for j := range k {
		if was, _ := g.at(mPumpPressure, f.pump, g.few[j]); was == p && g.through(&in.lines.in, f.pump, g.few[j]) == q {
			return j
		}
	}
	return -1
}

// stuck is the hottest water if the thermostat sticks and the high limit works.
func (f *firedIn) stuck(in *burnerIn, x firing, row []float64, k int) error {
	if !f.high.Given() || f.high.Kelvin() <= f.thermostat.Setting.Kelvin() || !liquidBelow(x.feed.Line, f.high.Kelvin()+1) {
		return nil
	}
	t, err := x.heater.Fault(in.water, x.feed.Line, thermal.Controls{Thermostat: f.thermostat, HighLimit: f.high, HighLimitDelay: f.thermostat.StopDelay, FlowSwitchDelay: f.thermostat.StopDelay},
		thermal.Fault{Name: "thermostat", Flow: x.feed.Flow, Thermostat: true})
	if outside(err) {
		return nil
	}
	if err != nil {
		return err
	}
	if !t.Unbounded {
		row[k] = t.Highest.Kelvin()
	}
	return nil
}

// everyGun adds what is looked at once, with every gun open before.
func (f *firedIn) everyGun(in *burnerIn, x firing, c thermal.Cycle, every, still *numbers) error {
	put := func(n *numbers, m *Metric, v float64) { n.row(m, f.id)[0] = v }
	set := f.thermostat.Setting
	target := set.Add(-f.thermostat.Differential)
	if in.wanted.Given() && in.wanted.Kelvin() < set.Kelvin() {
		target = in.wanted
	}
	if target.Kelvin() > in.water.Kelvin()+0.01 {
		w, err := x.heater.WarmUp(x.feed, in.water, target)
		if err == nil && w.Reached {
			put(every, mWarmUp, float64(w.Time))
		} else if err != nil && !outside(err) {
			return err
		}
	}

	dew, err := f.dewPoint(in.site)
	if err != nil {
		return err
	}
	if dew.Given() { // a flue gas that is nearly air has none above freezing
		d, err := x.heater.Condensing(x.feed, in.water, set, dew)
		if err == nil && !d.Forever {
			put(every, mCondensing, float64(d.Time))
		} else if err != nil && !outside(err) {
			return err
		}
	}

	if cold, ok, err := f.runCold(in, x); err != nil {
		return err
	} else if ok {
		put(every, mRunCold, cold)
	}

	// The metal as the fire goes out after the trigger was released.
	metal := c.CutOut.Metal.Add(units.TemperatureDelta(float64(x.heater.Output) * float64(f.thermostat.StopDelay) / (float64(f.steel) * float64(steelHeat))))
	trapped := max(x.feed.Line, lineAbsolute(float64(f.unloader), in.site))
	shut := thermal.ShutIn{Metal: f.steel, MetalHeat: steelHeat, MetalTemperature: metal, Conductance: x.heater.Conductance,
		Coil: f.insideOfCoil, CoilTemperature: c.CutOut.Water, Line: f.hoses, LineTemperature: c.CutOut.Water, Pressure: trapped, Stretch: f.grow, StretchAt: growAt}
	if r := lineAbsolute(float64(f.relief), in.site); f.relief != 0 && r > trapped {
		shut.Relief = r
	}
	if soak, err := shut.End(); err == nil {
		p := soak.Highest
		if soak.Lifts {
			p = shut.Relief
		}
		put(every, mSoakPressure, float64(p-in.site))
	} else if !outside(err) {
		return err
	}

	if !in.known {
		return nil
	}
	boils, err := thermal.BoilingPoint(in.site)
	if err != nil {
		return err
	}
	if boils.Kelvin() > c.CutOut.Water.Kelvin() {
		h, err := x.heater.StandingHeatUp(c.CutOut, boils, trapped)
		if err == nil && !h.Never {
			put(still, mBoilDry, float64(h.Time))
		} else if err != nil && !outside(err) {
			return err
		}
	}
	return nil
}

// usualFlue is the oxygen of an oil burner that nobody has measured, common
// practice.
const usualFlue units.Ratio = 0.05

// burn is the balance of the burner from its stack, or with the usual oxygen and
// a stack of 430 °F; read is true for the former.
func burn(fuel string, r FlueReading, site units.AbsolutePressure) (c thermal.Combustion, read bool, err error) {
	flue := thermal.FlueReading{Oxygen: r.Oxygen, CarbonDioxide: r.CarbonDioxide, Stack: r.Temperature, Air: r.Air, Site: site}
	read = r != FlueReading{}
	if !read {
		flue.Oxygen, flue.Stack, flue.Air = usualFlue, units.Fahrenheit(430), units.Fahrenheit(60)
	}
	c, err = burnerFuel(fuel).Burn(flue)
	return c, read, err
}

func (f *firedIn) dewPoint(site units.AbsolutePressure) (units.Temperature, error) {
	c, _, err := burn(f.fuel, f.flue, site)
	return c.DewPoint, err
}

// safeToTouch is the water temperature down to which a heater is run before the
// pump is stopped: that of the caution on scalds.
var safeToTouch = units.Fahrenheit(120)

// SafeToTouch is the water temperature down to which a heater is run before its
// pump is stopped.
func SafeToTouch() units.Quantity { return safeToTouch.Quantity() }

// runCold is the outlet at which the pump may be stopped, the burner being off:
// the metal, warmer than the water by what it still gives to the flow, then warms
// the standing water to no more than safeToTouch.
func (f *firedIn) runCold(in *burnerIn, x firing) (float64, bool, error) {
	if in.water.Kelvin() >= safeToTouch.Kelvin() {
		return 0, false, nil
	}
	rho, _, cp, err := water.Caloric(float64(x.feed.Line), safeToTouch.Kelvin())
	if err != nil {
		return 0, false, err
	}
	metal, inside := float64(f.steel)*float64(steelHeat), float64(f.insideOfCoil)*rho*cp
	lag := metal / (metal + inside) * float64(x.mass) * cp / float64(x.heater.Conductance)
	return (safeToTouch.Kelvin() + lag*in.water.Kelvin()) / (1 + lag), true, nil
}
