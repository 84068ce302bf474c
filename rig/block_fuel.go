package rig

import (
	"math"
	"slices"

	"example.com/washrig/fuel"
	"example.com/washrig/units"
)

// fuelIn is what consumption, run time and the engines' further numbers
// depend on.
type fuelIn struct {
	work
	axes     *axisSet
	lines    *block[linesIn]
	heat     *block[heatIn]
	electric *block[electricIn]
	drive    *block[enginesIn]
	hours    []hour
	site     units.Elevation
	trigger  float64
	modes    []modeIn
	engines  []burningEngine
	sets     []burningSet
	heaters  []burningHeater
	tanks    []fuelTankIn
}

type modeIn struct {
	guns int                    // value of AxisGuns, 0 without lines
	heat int                    // value of AxisHeat, 0 without heaters
	run  running                // what runs; the rest stands and burns nothing
	load map[string]units.Power // of each source, plugs as they stand in the mode
	time float64                // s a day
}

type burningEngine struct {
	id         string
	engine     fuel.Engine
	curve      []fuel.PowerPoint
	full, half units.FuelRate
	tank       int
	pumps      []pumpDrive
	belts      []beltIn
}

type pumpDrive struct {
	id  string
	set units.Pressure
}

type burningSet struct {
	id         string
	running    units.Power
	full, half units.FuelRate
	tank       int
}

type burningHeater struct {
	id   string
	tank int
}

type fuelTankIn struct {
	id     string
	volume units.Volume
	usable units.Ratio
	fuel   string
	inside fuel.Tank // without a length: the usable share counts
	slope  units.Angle
}

func (m *Model) fuelInput(b *blocks) fuelIn {
	s := m.spec
	in := fuelIn{axes: m.axes, lines: b.lines, heat: b.heat, electric: b.electric, drive: b.engines, hours: m.hours(), site: s.Site.Elevation, trigger: float64(s.Duty.TriggerShare)}
	tank := map[string]int{}
	for i := range s.FuelTanks {
		f := &s.FuelTanks[i]
		tank[f.ID] = i
		t := fuelTankIn{id: f.ID, volume: f.Volume, usable: f.UsableShare, fuel: f.Fuel}
		if inside, ok := insideOf(f); ok {
			t.inside, t.slope = inside, s.Site.SideSlope
		}
		in.tanks = append(in.tanks, t)
	}
	at := func(id string) int {
		if i, ok := tank[id]; ok {
			return i
		}
		return -1
	}
	list := modesOf(s)
	byName := inOrder(s.Loads, func(l *Load) string { return l.ID }) // sums run in order of name
	for k, ms := range m.Modes() {
		mode := modeIn{guns: int(ms.State.v[AxisGuns]), heat: int(ms.State.v[AxisHeat]), run: runsIn(s, &list[k]), load: map[string]units.Power{}, time: float64(list[k].Time)}
		for _, i := range byName {
			if l := &s.Loads[i]; slices.Contains(ms.Loads, l.ID) {
				mode.load[list[k].sourceOf(l)] += l.Running
			}
		}
		in.modes = append(in.modes, mode)
	}
	for _, i := range inOrder(s.Engines, func(e *Engine) string { return e.ID }) {
		e := &s.Engines[i]
		be := burningEngine{id: e.ID, full: e.FullLoadRate, half: e.HalfLoadRate, tank: at(e.FuelTank), engine: siteEngine(s, e)}
		if e.NoLoadSpeed != 0 {
			be.engine.Governor = fuel.Governor{NoLoad: e.NoLoadSpeed, Droop: e.Droop}
			for _, p := range e.Curve {
				be.curve = append(be.curve, fuel.PowerPoint{Speed: p.Speed, Power: p.Power})
			}
		}
		for _, k := range inOrder(s.Pumps, func(p *Pump) string { return p.ID }) {
			if s.Pumps[k].Engine == e.ID {
				be.pumps = append(be.pumps, pumpDrive{s.Pumps[k].ID, s.Pumps[k].Unloader.Setting})
			}
		}
		for _, k := range inOrder(s.Sources, func(g *Source) string { return g.ID }) {
			if g := &s.Sources[k]; g.Engine == e.ID {
				be.belts = append(be.belts, beltIn{g.ID, g.Efficiency, g.BeltEfficiency})
			}
		}
		in.engines = append(in.engines, be)
	}
	for _, i := range inOrder(s.Sources, func(g *Source) string { return g.ID }) {
		g := &s.Sources[i]
		if g.Engine == "" && g.FuelTank != "" {
			bs := burningSet{id: g.ID, running: g.Running, full: g.FullLoadRate, half: g.HalfLoadRate, tank: at(g.FuelTank)}
			in.sets = append(in.sets, bs)
		}
	}
	for _, i := range inOrder(s.Heaters, func(h *Heater) string { return h.ID }) {
		in.heaters = append(in.heaters, burningHeater{s.Heaters[i].ID, at(s.Heaters[i].FuelTank)})
	}
	return in
}

// line is a consumption known at half and full load of a rating.
type line struct {
	rated, full, half float64 // W or the rating's own unit, m³/s
}

// rate returns the fuel at a load: the straight line through the two points,
// the load held inside zero and the rating.
func (l line) rate(load float64) float64 {
	x := math.Min(math.Max(load, 0), l.rated) / l.rated
	return math.Max(l.half+(l.full-l.half)*(x-0.5)*2, 0)
}

// solveFuel returns what each consumer burns in each mode, how long each tank
// lasts, and what the engines have at the site by other rules than the plate's.
func solveFuel(in *fuelIn) ([]*numbers, error) {
	burned, err := solveBurning(in)
	if err != nil {
		return nil, err
	}
	site, err := solveEngineSite(in)
	if err != nil {
		return nil, err
	}
	list := scratch[fuelWork](in.w)
	list.numbers = append(append(list.numbers[:0], burned...), site...)
	return in.out(list.numbers...), nil
}

// fuelWork is memory of the block.
type fuelWork struct {
	numbers []*numbers
	rate    [][]float64 // by tank and mode, m³/s
	known   []bool      // by tank: something burns its fuel
}

func solveBurning(in *fuelIn) ([]*numbers, error) {
	if len(in.tanks) == 0 || len(in.modes) == 0 {
		return nil, nil
	}
	lines, err := in.lines.within(in.w)
	if err != nil {
		return nil, err
	}
	heat, err := in.heat.within(in.w)
	if err != nil {
		return nil, err
	}
	states := in.room(len(in.modes))
	for i := range in.modes {
		states = append(states, State{set: in.axes}.with(AxisMode, i+1))
	}
	n := in.newNumbers(states)
	w := scratch[fuelWork](in.w)
	w.rate, w.known = w.rate[:0], w.known[:0]
	for range in.tanks {
		w.rate, w.known = append(w.rate, in.floats(len(in.modes))), append(w.known, false)
	}
	rate, known := w.rate, w.known
	take := func(tank, mode int, v float64) {
		if tank >= 0 {
			rate[tank][mode] += v
			known[tank] = true
		}
	}
	// shaft is what an engine's pumps take with the guns and the heat of a mode, with
	// open and with released triggers.
	shaft := func(e *burningEngine, mode modeIn) (open, closed float64) {
		if len(lines) == 0 || mode.guns == 0 {
			return 0, 0
		}
		for k, s := range lines[0].states {
			if h := int(s.v[AxisHeat]); h != 0 && h != mode.heat {
				continue
			}
			for _, p := range e.pumps {
				row := lines[0].of(mPumpShaft, p.id)
				if row == nil || math.IsNaN(row[k]) {
					continue
				}
				if int(s.v[AxisGuns]) == mode.guns {
					open += row[k]
				}
				if s.v[AxisGuns] == 1 {
					closed += row[k]
				}
			}
		}
		return open, closed
	}
	for i := range in.engines {
		e := &in.engines[i]
		if e.full == 0 || e.half == 0 {
			continue
		}
		l := line{float64(e.engine.Gross), float64(e.full), float64(e.half)}
		row := n.row(mEngineBurn, e.id)
		for k, mode := range in.modes {
			row[k] = 0
			if !mode.run.engine(e.id) {
				continue
			}
			belt := 0.0
			for _, b := range e.belts {
				belt += float64(mode.load[b.id]) / (float64(b.eff) * float64(b.belt))
			}
			open, closed := shaft(e, mode)
			row[k] = in.trigger*l.rate(open+belt) + (1-in.trigger)*l.rate(closed+belt)
			take(e.tank, k, row[k])
		}
	}
	for i := range in.sets {
		g := &in.sets[i]
		if g.full == 0 || g.half == 0 {
			continue
		}
		l := line{float64(g.running), float64(g.full), float64(g.half)}
		row := n.row(mSourceBurn, g.id)
		for k, mode := range in.modes {
			load := float64(mode.load[g.id])
			row[k] = 0
			if load > 0 {
				row[k] = l.rate(load)
			}
			take(g.tank, k, row[k])
		}
	}
	for _, h := range in.heaters {
		var firing *numbers
		for _, t := range heat {
			if t.of(mFiring, h.id) != nil {
				firing = t
			}
		}
		if firing == nil {
			continue
		}
		values := firing.of(mFiring, h.id)
		row := n.row(mHeaterBurn, h.id)
		for k, mode := range in.modes {
			row[k] = 0
			for j, s := range firing.states {
				if mode.run.heater(h.id) && int(s.v[AxisGuns]) == mode.guns && !math.IsNaN(values[j]) {
					row[k] = math.Max(row[k], in.trigger*values[j])
				}
			}
			take(h.tank, k, row[k])
		}
	}
	fixed := in.newNumbers(in.one(in.axes))
	hourStates := in.room(len(in.hours))
	for _, h := range in.hours {
		hourStates = append(hourStates, State{set: in.axes}.with(AxisSite, h.state))
	}
	byHour := in.newNumbers(hourStates)
	for i, t := range in.tanks {
		usable := float64(t.volume) * float64(t.usable)
		if t.inside.Length != 0 {
			v, err := reached(t.inside, t.slope)
			if err != nil {
				return nil, units.At("fuel_tanks["+t.id+"]", err)
			}
			usable = float64(v)
		}
		fixed.row(mTankUsable, t.id)[0] = usable
		props, isFuel := fuelOf(t.fuel)
		if isFuel {
			for _, x := range []struct {
				m     *Metric
				limit units.Temperature
			}{{mCloud, props.Cold.Cloud}, {mGel, warmer(props.Cold.Gel, props.Cold.Boiling)}} {
				if !x.limit.Given() {
					continue
				}
				row := byHour.row(x.m, t.id)
				for k, h := range in.hours {
					row[k] = h.air.Kelvin() - x.limit.Kelvin()
				}
			}
		}
		if !known[i] {
			continue
		}
		row := n.row(mTankRate, t.id)
		copy(row, rate[i])
		hours := n.row(mTankHours, t.id)
		day, timed := 0.0, false
		for k, mode := range in.modes {
			if rate[i][k] > 0 {
				hours[k] = usable / rate[i][k]
			}
			if mode.time > 0 {
				timed = true
				day += rate[i][k] * mode.time
			}
		}
		if timed {
			fixed.row(mTankDay, t.id)[0] = day
			if isFuel {
				fixed.row(mCarbon, t.id)[0] = day * float64(props.CarbonDioxide.Fossil)
			}
		}
	}
	return in.out(n, fixed, byHour), nil
}

func warmer(a, b units.Temperature) units.Temperature {
	if b.Given() && (!a.Given() || b.Kelvin() > a.Kelvin()) {
		return b
	}
	return a
}

// solveEngineSite returns each engine's power at the site by SAE J1349, ISO
// 3046-1 and the rule of thumb, the largest pump pressure it carries, and the
// speed it settles at.
func solveEngineSite(in *fuelIn) ([]*numbers, error) {
	if !in.site.Given() || len(in.hours) == 0 || len(in.engines) == 0 {
		return nil, nil
	}
	drive, err := in.drive.within(in.w)
	if err != nil {
		return nil, err
	}
	states := in.room(len(in.hours))
	for _, h := range in.hours {
		states = append(states, State{set: in.axes}.with(AxisSite, h.state))
	}
	n := in.newNumbers(states)
	for i := range in.engines {
		e := &in.engines[i]
		eng := e.engine
		if len(e.curve) > 0 {
			if eng.Curve, err = fuel.NewPowerCurve(e.curve); err != nil {
				return nil, units.At("engines["+e.id+"].curve", err)
			}
		}
		for _, m := range []*Metric{mEngineJ1349, mEngineISO, mEngineThumb, mLoadedSpeed, mRatedSpeed} {
			n.row(m, e.id)
		}
		for _, p := range e.pumps {
			n.row(mLargest, p.id)
		}
		demands, pumps := worstDemand(in, e, drive)
		for k, h := range in.hours {
			at := fuel.Site{Elevation: in.site, Air: h.air}
			f, err := eng.Corrections(at)
			if err != nil {
				return nil, units.At("engines["+e.id+"]", err)
			}
			rating := eng.Gross
			if eng.Net != 0 {
				rating = eng.Net
			}
			rated := float64(rating) * float64(eng.Continuous)
			put := func(m *Metric, factor units.Ratio) {
				if factor > 0 {
					n.of(m, e.id)[k] = rated * math.Min(float64(factor), 1)
				}
			}
			put(mEngineJ1349, f.J1349)
			put(mEngineISO, f.ISO3046)
			put(mEngineThumb, f.Thumb)
			has, err := eng.Available(at)
			if err != nil {
				return nil, units.At("engines["+e.id+"]", err)
			}
			for j, p := range e.pumps {
				if p.set == 0 || pumps[j] < 1 { // W; a pump that takes less limits no engine
					continue
				}
				if has.Power <= 0 { // the plate's rule leaves nothing at this height
					n.of(mLargest, p.id)[k] = 0
					continue
				}
				list := []fuel.Demand{{Name: p.id, Shaft: units.Power(pumps[j])}, {Name: "everything else", Shaft: units.Power(math.Max(demands-pumps[j], 0))}}
				most, err := fuel.LargestPressure(has.Power, list, 0, p.set)
				if err != nil {
					return nil, units.At("pumps["+p.id+"]", err)
				}
				n.of(mLargest, p.id)[k] = float64(most)
			}
			if eng.Governor.NoLoad != 0 && eng.Curve != nil {
				s, err := eng.Settle(at, []fuel.Demand{{Name: "all", Shaft: units.Power(demands), Exponent: fuel.ConstantTorque}})
				if err != nil {
					return nil, units.At("engines["+e.id+"]", err)
				}
				n.of(mLoadedSpeed, e.id)[k] = float64(s.Speed)
				n.of(mRatedSpeed, e.id)[k] = float64(s.Rated)
			}
		}
	}
	return in.out(n), nil
}

// worstDemand returns the greatest demand on an engine with the listed plugs,
// and what each of its pumps takes with every gun closed.
func worstDemand(in *fuelIn, e *burningEngine, drive []*numbers) (total float64, pumps []float64) {
	pumps = in.floats(len(e.pumps))
	if len(drive) > 0 {
		if row := drive[0].of(mEngineDemand, e.id); row != nil {
			for k, s := range drive[0].states {
				if s.v[AxisPlugs] <= 1 && !math.IsNaN(row[k]) {
					total = math.Max(total, row[k])
				}
			}
		}
	}
	lines, err := in.lines.within(in.w)
	if err != nil || len(lines) == 0 {
		return total, pumps
	}
	for j, p := range e.pumps {
		row := lines[0].of(mPumpShaft, p.id)
		for k, s := range lines[0].states {
			if row != nil && s.v[AxisGuns] == 1 && !math.IsNaN(row[k]) {
				pumps[j] = math.Max(pumps[j], row[k])
			}
		}
	}
	return total, pumps
}
