package rig

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/root"
	"example.com/washrig/internal/water"
	"example.com/washrig/rig/parts"
	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// Values of AxisHeat.
const (
	heatOff    = 1
	heatSteady = 2
	heatStuck  = 3
)

// linesIn is what pressures, flows and temperatures of the lines depend on.
type linesIn struct {
	work
	axes    *axisSet
	site    units.AbsolutePressure
	water   units.Temperature
	pumps   []pumpIn
	nLines  int
	hasHeat bool
}

type pumpIn struct {
	id        string
	flow      units.VolumeFlow
	max       units.Pressure
	maxInlet  units.Temperature
	warmest   units.Temperature // water that it draws; not given: the supply's
	eff, belt units.Ratio
	engine    string
	unloader  units.Pressure
	valve     hydraulics.Unloader
	toInlet   bool
	pool      units.Volume // water that shares the heat in bypass
	relief    units.Pressure
	last      hydraulics.Relief
	heater    *heaterIn
	trunks    []trunkIn
	lines     []lineIn

	// The governor of an engine that drives this pump and no other: its speed
	// with no load, its droop, its power at full load, and what its belt
	// generators take. Zero speed: the speed is not given and does not move.
	noLoad units.RotationalSpeed
	droop  float64
	full   units.Power
	belts  units.Power
}

// speed returns the engine's speed over its governed speed at full load, for a
// pump power. A governor of droop d runs at no load (1 + d) times as fast as at
// full load, and in a straight line between. Above full load it stays at one:
// where the engine is pulled below its governor is a matter of its curve.
func (p *pumpIn) speed(pump units.Power) float64 {
	if p.noLoad == 0 || p.full <= 0 {
		return 1
	}
	x := math.Min(float64(pump+p.belts)/float64(p.full), 1)
	return 1 + p.droop*(1-x)
}

type heaterIn struct {
	id                  string
	bore, length, helix units.Length
	roughness           units.Length
	thermostat          units.Temperature
	high                units.Temperature
	max                 units.Pressure
	efficiency          units.Ratio
	value               units.HeatingValueByVolume
}

type trunkIn struct {
	id       string
	elements []hydraulics.Element
	max      units.Pressure // least rating of hose and elements, 0 if none is given
}

type lineIn struct {
	id       string
	bit      int // in AxisGuns
	trunk    int // index of its trunk, −1 without
	elements []hydraulics.Element
	ahead    int            // elements before its hose: injectors
	max      units.Pressure // least rating of hose and elements, 0 if none is given
	nozzles  []hydraulics.Nozzle
}

// standardAtmosphere stands for the site's pressure in the properties of line
// water when no elevation is given; at line pressure it does not matter.
const standardAtmosphere = 1 * units.AtmosphereAbsolute

func (m *Model) linesInput() linesIn {
	s := m.spec
	in := linesIn{axes: m.axes, site: standardAtmosphere, water: s.Site.Water, nLines: len(s.Lines), hasHeat: len(s.Heaters) > 0}
	if p, ok := sitePressure(s); ok {
		in.site = p
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		pi := pumpIn{id: p.ID, flow: p.RatedFlow, max: p.MaximumPressure, maxInlet: p.MaximumInletTemperature, warmest: p.Suction.Warmest,
			eff: p.Efficiency, belt: p.BeltEfficiency, engine: p.Engine,
			unloader: p.Unloader.Setting, toInlet: p.Unloader.ReturnTo == "inlet", relief: p.Relief.Setting,
			valve: unloaderOf(&p.Unloader), last: reliefOf(&p.Relief)}
		if pi.toInlet {
			pi.pool = p.Unloader.LoopVolume
		} else {
			for k := range s.Tanks {
				if s.Tanks[k].ID == p.Tank {
					pi.pool = s.Tanks[k].Nominal
				}
			}
		}
		for k := range s.Heaters {
			if h := &s.Heaters[k]; h.Pump == p.ID {
				pi.heater = &heaterIn{h.ID, h.CoilBore, h.CoilLength, h.HelixDiameter, h.CoilRoughness, h.Thermostat, h.HighLimit, h.MaximumPressure, h.Efficiency, h.HeatingValue}
			}
		}
		for k := range s.Trunks {
			if t := &s.Trunks[k]; t.Pump == p.ID {
				pi.trunks = append(pi.trunks, trunkIn{t.ID, lineElements(&t.Hose, parts.RatedLoss{}, t.Elements), leastOf(&t.Hose, t.Elements)})
			}
		}
		sort.Slice(pi.trunks, func(a, b int) bool { return pi.trunks[a].id < pi.trunks[b].id })
		for k := range s.Lines {
			if l := &s.Lines[k]; l.Pump == p.ID {
				n := lineIn{id: l.ID, bit: k, trunk: -1, elements: lineElements(&l.Hose, l.Fittings, l.Elements), max: leastOf(&l.Hose, l.Elements), nozzles: nozzlesOf(&l.Nozzle)}
				if jets := injectorsOf(s, l.ID); len(jets) > 0 {
					n.elements, n.ahead = append(jets, n.elements...), len(jets)
				}
				for j := range pi.trunks {
					if pi.trunks[j].id == l.Trunk {
						n.trunk = j
					}
				}
				pi.lines = append(pi.lines, n)
			}
		}
		m.governor(&pi, p.Engine)
		sort.Slice(pi.lines, func(a, b int) bool { return pi.lines[a].id < pi.lines[b].id })
		in.pumps = append(in.pumps, pi)
	}
	return in
}

// governor fills in the engine that drives a pump. An engine that drives several
// pumps is taken at its full-load speed.
func (m *Model) governor(p *pumpIn, engine string) {
	s := m.spec
	pumps := 0
	for i := range s.Pumps {
		if s.Pumps[i].Engine == engine {
			pumps++
		}
	}
	for i := range s.Engines {
		e := &s.Engines[i]
		if e.ID != engine || pumps != 1 || e.NoLoadSpeed == 0 || e.Droop == 0 {
			continue
		}
		rating := e.GrossPower
		if e.NetPower != 0 {
			rating = e.NetPower
		}
		p.noLoad, p.droop, p.full = e.NoLoadSpeed, float64(e.Droop), rating*units.Power(e.ContinuousShare)
		for _, k := range inOrder(s.Sources, func(g *Source) string { return g.ID }) { // sums run in order of name
			g := &s.Sources[k]
			if g.Engine != engine || g.Efficiency == 0 || g.BeltEfficiency == 0 {
				continue
			}
			for _, j := range inOrder(s.Loads, func(l *Load) string { return l.ID }) {
				if s.Loads[j].Source == g.ID {
					p.belts += s.Loads[j].Running / units.Power(float64(g.Efficiency)*float64(g.BeltEfficiency))
				}
			}
		}
	}
}

// kept is the whole solution of one state, for what needs more of it than the
// numbers of the block.
type kept struct {
	net  *hydraulics.Network
	res  *hydraulics.Result
	warm hydraulics.Fluid
}

// A solved pump: one set of open lines in one state of heat.
type solved struct {
	ok       bool
	pressure units.Pressure
	bypass   units.VolumeFlow
	relief   units.VolumeFlow
	shaft    units.Power
	line     []units.VolumeFlow
	nozzle   []units.Pressure
	force    []units.Force
	total    units.VolumeFlow // through the heater
	outlet   units.Temperature
	heat     units.Power
	share    float64
	speed    float64 // of the engine over its speed at full load
	deadHead units.Pressure
}

// solveLines solves every set of open guns with the heat off, steady, and stuck
// on. Pumps do not share lines, so a set of guns splits by pump and each pump's
// part is solved once.
func solveLines(in *linesIn) ([]*numbers, error) {
	if in.nLines == 0 || len(in.pumps) == 0 {
		return nil, nil
	}
	on := scratch[linesBench](in.w)
	on.heats = append(on.heats[:0], 0)
	if in.hasHeat {
		on.heats = append(on.heats[:0], heatOff, heatSteady, heatStuck)
	}
	sets, heats := 1<<in.nLines, on.heats
	states := in.room(sets * len(heats))
	for g := range sets {
		for _, h := range heats {
			s := State{set: in.axes}.with(AxisGuns, g+1)
			if h > 0 {
				s = s.with(AxisHeat, h)
			}
			states = append(states, s)
		}
	}
	n := in.newNumbers(states)
	still := in.room(len(heats)) // states in which nothing flows to a gun
	for _, s := range states {
		if s.v[AxisGuns] == 1 && s.v[AxisHeat] <= heatOff {
			still = append(still, s)
		}
	}
	fixed := in.newNumbers(still)
	for i := range in.pumps {
		p := &in.pumps[i]
		if err := on.solvePump(in, p, n, fixed); err != nil {
			return nil, fmt.Errorf("pumps[%s]: %w", p.id, err)
		}
	}
	return in.out(n, fixed), nil
}

// A linesBench is memory of the block of the lines.
type linesBench struct {
	heats []int
	rows  []lineRows
	cache []solved // by own guns and heat
}

// lineRows are where the numbers of one line stand.
type lineRows struct{ flow, nozzle, jump, loss, reaction int }

func (on *linesBench) solvePump(in *linesIn, p *pumpIn, n, fixed *numbers) error {
	// rows are added before any is kept, because adding moves the array
	heats := on.heats
	on.rows = on.rows[:0]
	add := func(m *Metric, part string) int { n.row(m, part); return len(n.rows) - 1 }
	for k := range p.lines {
		id := p.lines[k].id
		on.rows = append(on.rows, lineRows{add(mLineFlow, id), add(mNozzlePressure, id), add(mPressureJump, id), add(mLineLoss, id), add(mReaction, id)})
	}
	lineRow := on.rows
	pressure, bypass, relief, shaft, rule, dead := add(mPumpPressure, p.id), add(mBypass, p.id), add(mReliefFlow, p.id), add(mPumpShaft, p.id), add(mPumpRule, p.id), add(mDeadHead, p.id)
	speed := -1
	if p.noLoad != 0 {
		speed = add(mEngineSpeed, p.engine)
	}
	var outlet, heat, heatRule, share int
	if p.heater != nil {
		id := p.heater.id
		outlet, heat, heatRule, share = add(mOutlet, id), add(mHeat, id), add(mHeatRule, id), add(mBurnerShare, id)
	}
	val := func(row, state int) *float64 { return &n.value[row*len(n.states)+state] }

	sets := 1 << len(p.lines)
	full := sets - 1
	on.cache = on.cache[:0]
	cache := take(&on.cache, sets*4)
	at := in.bench()
	for _, h := range heats {
		for i := range sets {
			b := i - 1
			if i == 0 {
				b = full // the heat of every gun open sets the firing
			}
			if at.near, at.through = 0, 0; h > heatOff { // the water's heat moves pressure and flow by little
				at.near, at.through = cache[b*4+h-1].pressure, cache[b*4+h-1].total
			}
			r, err := solveOne(in, p, at, b, h, &cache[full*4+heatSteady], nil)
			if err != nil {
				return err
			}
			cache[b*4+h] = r
		}
	}
	at.near, at.through = 0, 0
	for s, st := range n.states {
		guns := int(st.v[AxisGuns]) - 1
		h := int(st.v[AxisHeat])
		own := 0
		for k := range p.lines {
			if guns&(1<<p.lines[k].bit) != 0 {
				own |= 1 << k
			}
		}
		r := &cache[own*4+h]
		if r.deadHead != 0 {
			*val(dead, s) = float64(r.deadHead)
		}
		if !r.ok {
			continue
		}
		all := &cache[full*4+h]
		*val(pressure, s) = float64(r.pressure)
		*val(bypass, s) = float64(r.bypass)
		*val(relief, s) = float64(r.relief)
		*val(shaft, s) = float64(r.shaft)
		if speed >= 0 {
			*val(speed, s) = r.speed * float64(p.noLoad) / (1 + p.droop)
		}
		*val(rule, s) = units.VolumeFlow(r.speed*float64(p.flow)).In(units.GallonPerMinute) * r.pressure.In(units.PSI) / 1150 * float64(units.Horsepower)
		for k := range p.lines {
			if own&(1<<k) == 0 {
				continue
			}
			*val(lineRow[k].flow, s) = float64(r.line[k])
			*val(lineRow[k].nozzle, s) = float64(r.nozzle[k])
			*val(lineRow[k].loss, s) = float64(r.pressure - r.nozzle[k])
			*val(lineRow[k].reaction, s) = float64(r.force[k])
			if own == 1<<k && own != full && all.ok && all.nozzle[k] > 0 {
				*val(lineRow[k].jump, s) = float64((r.nozzle[k] - all.nozzle[k]) / all.nozzle[k])
			}
		}
		if p.heater != nil && own != 0 {
			*val(outlet, s) = r.outlet.Kelvin()
			if h == heatSteady {
				*val(heat, s) = float64(r.heat)
				*val(share, s) = r.share
				rise := r.outlet.Sub(in.water)
				if q, err := thermal.RuleOf500(r.total, rise); err == nil {
					*val(heatRule, s) = float64(q)
				}
			}
		}
	}
	return bypassNumbers(in, p, fixed, &cache[heats[0]])
}

// solveOne solves one pump with the lines of set open. all is the solution with
// every line open and the heat steady; it gives the firing that is stuck on.
//
// The properties of the water follow its temperature and the pump's pressure,
// and both follow the flow: the three are repeated until the pressure stands.
func solveOne(in *linesIn, p *pumpIn, on *bench, set, heat int, all *solved, keep *kept) (solved, error) {
	r := solved{line: take(&on.flows, len(p.lines)), nozzle: take(&on.nozzles, len(p.lines)), force: take(&on.forces, len(p.lines)), outlet: in.water}
	if heat == heatStuck && (set == 0 || p.heater == nil || !all.ok) {
		return r, nil // without flow there is no outlet to speak of; the flow switch is a guard of its own
	}
	guess := on.near
	if guess <= 0 {
		guess = p.unloader
	}
	if guess == 0 {
		guess = p.max
	}
	hot := in.water
	if heat >= heatSteady && p.heater != nil && p.heater.thermostat.Given() && p.heater.thermostat.Kelvin() > in.water.Kelvin() {
		hot = p.heater.thermostat
	}
	res := &on.res
	if keep != nil {
		res = new(hydraulics.Result)
	}
	speed := 1.0
	run := func(p2 units.Pressure, hot units.Temperature) error {
		abs := lineAbsolute(float64(p2), in.site)
		cold, err := on.fluid(abs, in.water)
		if err != nil {
			return err
		}
		warm, err := on.fluid(abs, hot)
		if err != nil {
			return err
		}
		return on.ws.Solve(on.network(p, set, cold, warm, units.VolumeFlow(speed)*p.flow), res)
	}
	runaway := false
	if heat == heatStuck && on.through > 0 {
		o, err := thermal.OutletTemperature(on.through, in.water, all.heat, lineAbsolute(float64(guess), in.site))
		if err != nil {
			return r, err
		}
		if o.Phase != thermal.Runaway {
			hot = o.Temperature
		}
	}
	// at solves the lines with the properties at a pressure, and with the
	// temperature that a stuck burner gives the flow.
	at := func(p2 units.Pressure) error {
		var was, led float64 // the temperature before, and what it led to
		for it := 0; ; it++ {
			if err := run(p2, hot); err != nil || heat != heatStuck {
				return err
			}
			o, err := thermal.OutletTemperature(res.Supplies[0].Line, in.water, all.heat, lineAbsolute(float64(p2), in.site))
			if err != nil {
				return err
			}
			if o.Phase == thermal.Runaway {
				runaway = true
				return nil
			}
			had, to := hot.Kelvin(), o.Temperature.Kelvin()
			shift := math.Abs(to - had)
			hot = o.Temperature
			if shift < 1e-9 {
				return nil
			}
			// The flow answers the temperature by little: what the next step would move
			// is that share of what this one did.
			if share := math.Abs((to - led) / (had - was)); it > 0 && share < 0.1 && 10*share*shift < 1e-9 {
				return nil
			}
			was, led = had, to
			if it == 100 {
				return &units.SolverError{Solver: "temperature of the open lines", State: fmt.Sprintf("open lines %b", set), Iterations: it, Residual: shift}
			}
		}
	}
	if err := settle(p, &speed, func() error { return meet(at, res, guess) }, res); err != nil {
		var d *hydraulics.DeadHeadError
		if errors.As(err, &d) {
			r.deadHead = leastRating(p)
			return r, nil
		}
		return r, err
	}
	if runaway {
		return r, nil
	}
	if keep != nil {
		abs := lineAbsolute(float64(res.Pressure), in.site)
		cold, errCold := on.fluid(abs, in.water)
		warm, errWarm := on.fluid(abs, hot)
		if err := errors.Join(errCold, errWarm); err != nil {
			return r, err
		}
		keep.net, keep.res, keep.warm = new(bench).network(p, set, cold, warm, units.VolumeFlow(speed)*p.flow), res, warm
	}
	sup := res.Supplies[0]
	r.ok = true
	r.pressure, r.bypass, r.relief, r.total = sup.Pressure, sup.Bypass, sup.Relief, sup.Line
	r.speed = speed
	shaft, err := hydraulics.ShaftPower(units.VolumeFlow(speed)*p.flow, max(sup.Pressure, 0), p.eff, p.belt) // a line that drains downhill takes no power
	if err != nil {
		return r, err
	}
	r.shaft = shaft
	abs := lineAbsolute(float64(r.pressure), in.site)
	warm, err := on.fluid(abs, hot)
	if err != nil {
		return r, err
	}
	for k := range p.lines {
		if set&(1<<k) == 0 {
			continue
		}
		sec := res.Sections[len(res.Sections)-len(p.lines)+k]
		r.line[k], r.nozzle[k] = sec.Metered, sec.Outlet
		f, err := hydraulics.ReactionForce(max(sec.Flow, 0), max(sec.Outlet, 0), warm.Density)
		if err != nil {
			return r, err
		}
		r.force[k] = f
	}
	r.outlet = hot
	if p.heater != nil && set != 0 && heat == heatSteady {
		q, err := thermal.HeatRequired(r.total, in.water, hot, abs)
		if err != nil {
			return r, err
		}
		r.heat = q
		r.share = 1
		if all.ok && all.heat > 0 {
			r.share = float64(q / all.heat)
		}
	}
	return r, nil
}

// settle repeats a solution until the engine's speed is the one its governor
// holds at the power the pump takes. The droop of a governor is a few per cent,
// so each step leaves at most that share of the error; where the water is about
// to boil the power jumps about, and the speed is bracketed between full load and
// no load instead: more speed is more flow and power, and a governor answers more
// power with less speed.
func settle(p *pumpIn, speed *float64, solve func() error, res *hydraulics.Result) error {
	const close = 1e-13
	step := func() (float64, error) {
		if err := solve(); err != nil {
			return 0, err
		}
		power, err := hydraulics.ShaftPower(units.VolumeFlow(*speed)*p.flow, max(res.Supplies[0].Pressure, 0), p.eff, p.belt)
		if err != nil {
			return 0, err
		}
		return p.speed(power) - *speed, nil
	}
	for range 12 {
		moved, err := step()
		if err != nil {
			return err
		}
		*speed += moved
		if math.Abs(moved) <= close {
			return nil
		}
	}
	var failed error
	x, _, err := root.Bracketed(func(x float64) float64 {
		*speed = x
		moved, err := step()
		if err != nil {
			failed = err
			return math.NaN()
		}
		return moved
	}, 1, 1+p.droop, close)
	if failed != nil {
		return failed
	}
	if err != nil {
		return fmt.Errorf("engine speed of pump %s: %w", p.id, err)
	}
	*speed = x
	return solve()
}

// meet finds the pressure at which the properties are those of the pressure
// that they lead to. Water is stiff: the pressure that comes out moves by a few
// thousandths of that which goes in, so that secants meet it within three or four
// solutions; the last one is taken when that share of what it still moved is below a
// tenth of 1e-12. Where the water is about to boil the pressure is bracketed instead,
// between nothing and more than the pump can make.
func meet(at func(units.Pressure) error, res *hydraulics.Result, guess units.Pressure) error {
	const close = 1e-12
	most := guess
	var was, led units.Pressure // the guess before, and what it led to
	for it := range 12 {
		if err := at(guess); err != nil {
			return err
		}
		to := res.Pressure
		most = max(most, to)
		moved, scale := math.Abs(float64(to-guess)), math.Max(float64(to), 1)
		if moved <= close*scale {
			return nil
		}
		next := to
		if it > 0 && guess != was {
			share := float64((to - led) / (guess - was))
			if math.Abs(share) < 0.1 && 10*math.Abs(share)*moved <= close*scale {
				return nil
			}
			if math.Abs(share) < 0.5 { // else substitution goes on
				next += (to - guess) * units.Pressure(share/(1-share))
			}
		}
		was, led, guess = guess, to, next
	}
	var failed error
	excess := func(x float64) float64 {
		if err := at(units.Pressure(x)); err != nil {
			failed = err
			return math.NaN()
		}
		return float64(res.Pressure) - x
	}
	x, _, err := root.Bracketed(excess, 1, 4*float64(most), close*float64(most))
	if failed != nil {
		return failed
	}
	if err != nil {
		return fmt.Errorf("line pressure: %w", err)
	}
	return at(units.Pressure(x))
}

// mostPressure is the end of the water tables. A rig that passes it has long
// passed every rating; the properties of its end are taken beyond it.
const mostPressure = 50 * units.PascalAbsolute * 1e6

// liquidSide keeps water at its boiling point on the side of the liquid, K: the
// tables may take the point itself for steam, a thousand times lighter.
const liquidSide = 1e-6

// fluidAt returns density and viscosity of water. Above its boiling point the
// liquid at that point is taken: what flows to the nozzle is held liquid by the
// line pressure, or the outlet is reported as boiling.
func fluidAt(p units.AbsolutePressure, t units.Temperature) (hydraulics.Fluid, error) {
	T := t.Kelvin()
	if !surelyLiquid(float64(p), T) {
		if ts, err := water.SaturationTemperature(float64(p)); err == nil {
			T = math.Min(T, ts-liquidSide)
		}
	}
	w, err := water.At(float64(p), T)
	if err != nil {
		return hydraulics.Fluid{}, err
	}
	return hydraulics.Fluid{Density: units.Density(w.Density), Viscosity: units.DynamicViscosity(w.Viscosity)}, nil
}

// surelyLiquid reports water that lies well below its boiling point, by a few round
// points of the saturation line (100 °C at 101.4 kPa, 150 °C at 476 kPa, 200 °C at
// 1.56 MPa, 250 °C at 3.98 MPa): most water of a rig does.
//
// Source: IAPWS-IF97 region 4; a test holds the points.
func surelyLiquid(p, T float64) bool {
	switch {
	case p >= 4.0e6:
		return T < 523
	case p >= 1.6e6:
		return T < 473
	case p >= 4.8e5:
		return T < 423
	case p >= 1.02e5:
		return T < 373
	}
	return false
}

// A bench is where the states of a pump are solved, one after another: the memory
// that they use in turn.
type bench struct {
	ws      hydraulics.Workspace
	net     hydraulics.Network
	res     hydraulics.Result
	near    units.Pressure   // where the pressure of the next state is looked for first; zero: at the unloader's setting
	through units.VolumeFlow // what passes the heater with a burner that is stuck on is taken from here first; zero: the water is as warm as its thermostat
	fluids  [4]fluidPoint    // the last points of the water asked for
	next    int              // of fluids: the oldest
	outlets []hydraulics.Outlet
	coil    []hydraulics.Element
	flows   []units.VolumeFlow
	nozzles []units.Pressure
	forces  []units.Force
}

// A fluidPoint is the water at one pressure and temperature.
type fluidPoint struct {
	p     units.AbsolutePressure
	t     units.Temperature
	fluid hydraulics.Fluid
}

// fluid is fluidAt, which a state asks for the same points again and again.
func (b *bench) fluid(p units.AbsolutePressure, t units.Temperature) (hydraulics.Fluid, error) {
	for i := range b.fluids {
		if x := &b.fluids[i]; x.p == p && x.t == t && p != 0 {
			return x.fluid, nil
		}
	}
	f, err := fluidAt(p, t)
	if err != nil {
		return f, err
	}
	b.fluids[b.next] = fluidPoint{p, t, f}
	b.next = (b.next + 1) % len(b.fluids)
	return f, nil
}

// take cuts n values off the end of a store, which grows by whole pieces, so that what
// was cut off before stays.
func take[T any](store *[]T, n int) []T {
	if len(*store)+n > cap(*store) {
		*store = make([]T, 0, max(64, n, 2*cap(*store)))
	}
	at := len(*store)
	*store = (*store)[:at+n]
	out := (*store)[at : at+n : at+n]
	clear(out)
	return out
}

// network lays out one pump: the heater's coil, then its trunks, then a section a
// line. The network is good until the next is laid out.
func (b *bench) network(p *pumpIn, set int, cold, warm hydraulics.Fluid, flow units.VolumeFlow) *hydraulics.Network {
	n := &b.net
	n.Fluid = cold
	n.Supplies = append(n.Supplies[:0], hydraulics.Supply{Name: p.id, Flow: flow, Unloader: p.valve, Relief: p.last})
	n.Sections = n.Sections[:0]
	parent := hydraulics.Manifold
	if h := p.heater; h != nil && h.bore != 0 {
		coil := hydraulics.Coil{Part: hydraulics.Part{Name: "coil"}, Bore: h.bore, Length: h.length, Helix: h.helix, Roughness: h.roughness}
		if len(b.coil) == 0 || b.coil[0] != hydraulics.Element(coil) {
			b.coil = []hydraulics.Element{coil}
		}
		n.Sections = append(n.Sections, hydraulics.Section{Name: "coil", Parent: parent, Fluid: meanFluid(cold, warm), Elements: b.coil})
		parent = 0
	}
	first := len(n.Sections)
	for k := range p.trunks {
		n.Sections = append(n.Sections, hydraulics.Section{Name: p.trunks[k].id, Parent: parent, Fluid: warm, Elements: p.trunks[k].elements})
	}
	if len(b.outlets) < len(p.lines) {
		b.outlets = make([]hydraulics.Outlet, len(p.lines))
	}
	for k := range p.lines {
		l := &p.lines[k]
		from := parent
		if l.trunk >= 0 {
			from = first + l.trunk
		}
		b.outlets[k] = hydraulics.Outlet{Nozzles: l.nozzles, Closed: set&(1<<k) == 0}
		n.Sections = append(n.Sections, hydraulics.Section{Name: l.id, Parent: from, Fluid: warm, Elements: l.elements, Outlet: &b.outlets[k]})
	}
	if len(n.Sections) == 0 { // a pump that feeds no line works against its own valves
		n.Sections = append(n.Sections, hydraulics.Section{Name: "blind", Parent: parent, Fluid: cold})
	}
	return n
}

// meanFluid is the water in a coil that enters cold and leaves warm: the
// geometric mean of the viscosities and the mean of the densities, since the
// temperature rises about evenly along the tube.
func meanFluid(a, b hydraulics.Fluid) hydraulics.Fluid {
	return hydraulics.Fluid{Density: (a.Density + b.Density) / 2, Viscosity: units.DynamicViscosity(math.Sqrt(float64(a.Viscosity) * float64(b.Viscosity)))}
}

// leastRating is the lowest pressure rating on a pump's line side.
func leastRating(p *pumpIn) units.Pressure {
	least := p.max
	take := func(r units.Pressure) {
		if r != 0 && (least == 0 || r < least) {
			least = r
		}
	}
	if p.heater != nil {
		take(p.heater.max)
	}
	for k := range p.trunks {
		take(p.trunks[k].max)
	}
	for k := range p.lines {
		take(p.lines[k].max)
	}
	return least
}

// bypassNumbers adds what does not depend on the open lines: settings, and the
// warming of the water while every gun is closed.
func bypassNumbers(in *linesIn, p *pumpIn, fixed *numbers, closed *solved) error {
	one := func(m *Metric, part string, v float64) {
		row := fixed.row(m, part)
		for i := range row {
			row[i] = v
		}
	}
	if p.unloader == 0 || p.pool == 0 || !closed.ok || closed.pressure <= 0 {
		return nil
	}
	power, err := hydraulics.HydraulicPower(units.VolumeFlow(closed.speed)*p.flow, closed.pressure)
	if err != nil {
		return err
	}
	b := thermal.Bypass{Power: power, Volume: p.pool, Start: in.water, Limit: in.water, Pressure: in.site}
	if p.maxInlet.Given() {
		b.Limit = p.maxInlet
		if ts, err := thermal.BoilingPoint(in.site); err == nil && b.Limit.Kelvin() > ts.Kelvin() {
			b.Limit = ts
		}
	}
	if b.Limit.Kelvin() < b.Start.Kelvin() {
		b.Limit = b.Start
	}
	h, err := b.Heat()
	if err != nil {
		return err
	}
	one(mBypassRise, p.id, float64(h.Rate)*60)
	if p.maxInlet.Given() && !h.Never {
		one(mBypassTime, p.id, float64(h.Time))
	}
	if !p.maxInlet.Given() || !p.warmest.Given() || p.warmest.Kelvin() <= in.water.Kelvin() {
		return nil
	}
	if b.Start = p.warmest; b.Start.Kelvin() > b.Limit.Kelvin() {
		b.Start = b.Limit
	}
	if h, err = b.Heat(); err != nil {
		return err
	}
	if !h.Never {
		one(mBypassWarm, p.id, float64(h.Time))
	}
	return nil
}
