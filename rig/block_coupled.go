package rig

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

	"example.com/washrig/electrical"
	"example.com/washrig/fuel"
	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/root"
	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// coupledIn is what the joint states of engine, generator, burner, water and
// pump depend on.
type coupledIn struct {
	work
	axes      *axisSet
	lines     *block[linesIn]
	wiring    *block[wiringIn]
	site      units.AbsolutePressure
	known     bool // the elevation was given
	elevation units.Elevation
	hours     []hour
	loops     []coupledLoop
}

// A coupledLoop is one pump with what is coupled to it. Without an engine whose
// governor is given the speed stands still; without a fire the water stays cold.
type coupledLoop struct {
	pump   int // in the block of the lines
	engine *coupledEngine
	fire   *coupledFire
}

type coupledEngine struct {
	id     string
	noLoad units.RotationalSpeed
	droop  float64
	engine fuel.Engine
	curve  []fuel.PowerPoint
	rating units.Power // for hours, at the plate's air
	belts  []coupledBelt
}

type coupledBelt struct {
	source    int
	eff, belt float64
}

type coupledFire struct {
	heater string
	fire   fire
	clean  units.FuelRate
	fuel   string
	flue   FlueReading
	load   int // the burner's, −1: not told
	source int
}

func (m *Model) coupledInput(b *blocks) coupledIn {
	s := m.spec
	in := coupledIn{axes: m.axes, lines: b.lines, wiring: b.wiring, elevation: s.Site.Elevation, hours: m.hours()}
	in.site, in.known = standardAtmosphere, false
	if p, ok := sitePressure(s); ok {
		in.site, in.known = p, true
	}
	for i := range b.lines.in.pumps {
		p := &b.lines.in.pumps[i]
		l := coupledLoop{pump: i}
		if p.noLoad != 0 && p.full > 0 {
			l.engine = m.coupledEngine(p.engine)
		}
		for k := range s.Heaters {
			h := &s.Heaters[k]
			if h.Pump != p.id || h.CleanFiring == 0 || !h.Thermostat.Given() || h.Thermostat.Kelvin() <= s.Site.Water.Kelvin() {
				continue
			}
			f := coupledFire{heater: h.ID, fire: fireOf(h), clean: h.CleanFiring, fuel: h.Fuel, flue: h.Stack, load: burnerOf(s, h.ID)}
			if f.load >= 0 {
				f.source = m.blocks.wiring.in.loads[f.load].source
			}
			l.fire = &f
		}
		if len(p.lines) > 0 && (l.engine != nil || l.fire != nil) {
			in.loops = append(in.loops, l)
		}
	}
	return in
}

// coupledEngine collects the engine of a pump that it alone drives.
func (m *Model) coupledEngine(id string) *coupledEngine {
	s := m.spec
	for i := range s.Engines {
		e := &s.Engines[i]
		if e.ID != id {
			continue
		}
		rating := e.GrossPower
		if e.NetPower != 0 {
			rating = e.NetPower
		}
		c := &coupledEngine{id: id, noLoad: e.NoLoadSpeed, droop: float64(e.Droop), engine: siteEngine(s, e), rating: rating * units.Power(e.ContinuousShare)}
		for _, x := range e.Curve {
			c.curve = append(c.curve, fuel.PowerPoint{Speed: x.Speed, Power: x.Power})
		}
		for k := range s.Sources {
			if g := &s.Sources[k]; g.Engine == id && g.Efficiency != 0 && g.BeltEfficiency != 0 {
				c.belts = append(c.belts, coupledBelt{k, float64(g.Efficiency), float64(g.BeltEfficiency)})
			}
		}
		sort.Slice(c.belts, func(a, b int) bool { return s.Sources[c.belts[a].source].ID < s.Sources[c.belts[b].source].ID })
		return c
	}
	return nil
}

// Laws by which a load's power and speed follow its voltage and frequency.
const (
	lawConstant  = iota // nothing is known: its running power
	lawFan              // induction motor by its plate
	lawSeries           // brushes
	lawInduction        // pump on an induction motor: speed by frequency, power by its cube
	lawResistive
)

type fedLoad struct {
	at                 int // in the wiring block
	name               string
	law                int
	running, starting  float64 // W at the plate
	rated, plate, lost float64 // V: of the source, of the plate, in the cords
	fan                electrical.FanMotor

	last  supply // what it was last asked for, and what it answered; of the solving of one loop
	drawn drawn
}

// drawn is what a load takes, W, and how fast it turns over its plate.
type drawn struct{ watts, speed float64 }

// feed is a source with its loads as the listed plugs have them.
type feed struct {
	source    int
	id        string
	driven    bool // by the engine of the loop
	eff, belt float64
	loads     []fedLoad
	fixed     supply // where it is not driven
}

// feed lays out one source; loads is memory for its loads.
func (in *coupledIn) feed(loads []fedLoad, source int, driven bool, eff, belt float64) (feed, error) {
	w := &in.wiring.in
	g := &w.sources[source]
	f := feed{source: source, id: w.electric.in.sources[source].id, driven: driven, eff: eff, belt: belt, loads: loads[:0]}
	on := w.on(0, source)
	running := 0.0
	for _, j := range on {
		l := w.load(j)
		running += float64(l.Running)
		x := fedLoad{at: j, name: l.Name, running: float64(l.Running), starting: float64(l.Starting)}
		if g.voltage != 0 && g.frequency != 0 {
			x.rated = w.volts(j, source)
			x.plate = x.rated
			if v := float64(w.loads[j].voltage); v != 0 {
				x.plate = v
			}
			e, err := w.endOf(nil, j, source, on, 1, false, nobody)
			if err != nil {
				return f, units.At("loads["+l.Name+"]", err)
			}
			if e.known {
				x.lost = x.rated - e.voltage
			}
			d := &w.loads[j]
			switch {
			case d.burner && d.speed != 0 && d.poles != 0 && d.breakage != 0:
				x.law = lawFan
				x.fan = electrical.FanMotor{Voltage: units.Voltage(x.plate), Frequency: g.frequency, Poles: d.poles, Speed: d.speed, Breakdown: d.breakage}
			case d.class == "brush-motor":
				x.law = lawSeries
			case d.class == "capacitor-start-motor" || d.class == "split-phase-motor" || d.class == "burner":
				x.law = lawInduction
			case d.class == "resistance":
				x.law = lawResistive
			}
		}
		f.loads = append(f.loads, x)
	}
	var err error
	f.fixed, err = w.supplyOf(source, running)
	return f, err
}

// supply is voltage and frequency with the engine at x of its full-load speed.
// The speed without load of the generator's plate belongs to that of the
// engine; the belt keeps their ratio.
func (in *coupledIn) supply(f *feed, e *coupledEngine, x float64) (supply, error) {
	g := &in.wiring.in.sources[f.source]
	if !f.driven || g.voltage == 0 || g.frequency == 0 || g.poles == 0 || g.speed == 0 {
		return f.fixed, nil
	}
	hz, err := electrical.GeneratorFrequency(g.speed*units.RotationalSpeed(x/(1+e.droop)), g.poles)
	if err != nil {
		return supply{}, err
	}
	v, err := electrical.RegulatedVoltage(g.voltage, g.frequency, hz, g.knee)
	if err != nil {
		return supply{}, err
	}
	return supply{share: float64(v / g.voltage), frequency: float64(hz)}, nil
}

// draw returns what a load takes and how fast it turns over its plate; the speed
// is not a number where nothing tells it.
func (l *fedLoad) draw(s supply, rated units.Frequency) (watts, speed float64, err error) {
	if s != l.last || s == (supply{}) {
		if watts, speed, err = l.drawAt(s, rated); err != nil {
			return watts, speed, err
		}
		l.last, l.drawn = s, drawn{watts, speed}
	}
	return l.drawn.watts, l.drawn.speed, nil
}

func (l *fedLoad) drawAt(s supply, rated units.Frequency) (watts, speed float64, err error) {
	if l.law == lawConstant || s.frequency == 0 {
		return l.running, math.NaN(), nil
	}
	v := math.Max(s.share*l.rated-l.lost, 0)
	share, hz := math.Min(v/l.plate, 2), s.frequency/float64(rated)
	switch l.law {
	case lawFan:
		if v < 0.1*l.plate || hz < 0.2 {
			return l.starting * share * share, 0, nil
		}
		st, err := l.fan.At(units.Voltage(share*l.plate), units.Frequency(math.Min(hz, 2)*float64(rated)))
		if err != nil || !st.Holds { // a rotor that stands takes what it takes to start
			return l.starting * share * share, 0, err
		}
		return l.running * float64(st.Power), float64(st.Air), nil
	case lawSeries:
		st, err := electrical.SeriesFan(units.Ratio(share))
		return l.running * float64(st.Power), float64(st.Speed), err
	case lawInduction:
		return l.running * hz * hz * hz, hz, nil
	}
	return l.running * share * share, math.NaN(), nil
}

// A fireState is a burner in one hour, fan at a share of its air.
type firePlate struct {
	known      bool
	rate       float64 // m³/s of fuel while it fires
	nozzle     bool    // the oil nozzle decides the rate
	full       float64 // W into the water at the plate's efficiency
	clean      float64 // m³/s, fan at its plate, by the air of the hour
	set, ref   float64 // air number wanted, and with the fan at its plate in the hour
	e0, e1     float64 // stack efficiency at no excess air, and per unit of it
	efficiency float64
}

// A burning is what a fire does with some air.
type burning struct {
	clean, lambda, efficiency float64
	heat                      float64 // W into the water; without a nozzle as much as is wanted, times what the air lets burn
	burnt                     float64 // share of the fuel that finds air
}

// plate prepares a fire for an hour. The shutter is set, fan at its plate, in the
// hottest hour: to the oxygen read or usual, or wide open where that is not
// enough. It stays there when the air gets denser.
func (in *coupledIn) plate(f *coupledFire, asked float64, h int) (firePlate, error) {
	p := firePlate{efficiency: float64(f.fire.efficiency)}
	rate, ok, err := f.fire.rate()
	if err != nil {
		return p, err
	}
	p.nozzle = ok && rate > 0
	if !p.nozzle {
		if asked <= 0 {
			return p, nil
		}
		if rate, err = thermal.FiringRate(units.Power(asked), thermal.EfficiencyHHV(f.fire.efficiency), thermal.HHV(f.fire.value)); err != nil {
			return p, err
		}
	}
	full, err := f.fire.output(units.Power(asked))
	if err != nil {
		return p, err
	}
	p.rate, p.full = float64(rate), float64(full)
	if !in.known || len(in.hours) == 0 || !in.hours[h].air.Given() {
		return p, nil
	}
	c, _, err := burn(f.fuel, f.flue, in.site)
	if err != nil {
		return p, err
	}
	// The enthalpy of the excess air is in proportion to it: two balances give
	// the line.
	r := f.flue
	if r == (FlueReading{}) {
		r = FlueReading{Temperature: units.Fahrenheit(430), Air: units.Fahrenheit(60)}
	}
	r.CarbonDioxide, r.Oxygen = 0, 0.12
	far, _, err := burn(f.fuel, r, in.site)
	if err != nil {
		return p, err
	}
	p.e1 = (float64(far.Efficiency) - float64(c.Efficiency)) / (float64(far.ExcessAir) - float64(c.ExcessAir))
	p.e0 = float64(c.Efficiency) - p.e1*float64(c.ExcessAir)
	p.set = 1 + float64(c.ExcessAir)
	thinnest := math.Inf(1)
	for i := range in.hours {
		if !in.hours[i].air.Given() {
			continue
		}
		x, err := thermal.CleanFiring(f.clean, in.site, in.hours[i].air, 1)
		if err != nil {
			return p, err
		}
		thinnest = math.Min(thinnest, float64(x))
		if i == h {
			p.clean = float64(x)
		}
	}
	p.ref = p.set * math.Min(1, thinnest/p.rate) * p.clean / thinnest
	p.known = true
	return p, nil
}

// at burns with the fan at a share of its air.
func (p *firePlate) at(air, wanted float64) burning {
	b := burning{clean: math.NaN(), lambda: math.NaN(), efficiency: math.NaN(), heat: p.full, burnt: 1}
	if !p.nozzle {
		b.heat = math.Max(p.full, wanted)
	}
	if !p.known {
		return b
	}
	b.clean, b.lambda = p.clean*air, p.ref*air
	excess := math.Max(b.lambda-1, 0)
	ratio := math.Max(p.e0+p.e1*excess, 0) / (p.e0 + p.e1*(p.set-1))
	b.efficiency = p.efficiency * ratio
	b.burnt = math.Min(b.lambda, 1)
	if p.nozzle {
		b.heat *= ratio
	}
	b.heat *= b.burnt
	return b
}

// A coupledState is one joint state, solved.
type coupledState struct {
	ok       bool
	x        float64 // engine speed over that at full load
	full     float64 // W the engine has for hours, 0 without one
	shaft    float64 // W of the pump
	belts    float64 // W of the belt generators
	pressure float64
	flow     float64 // of the pump
	through  float64 // through the heater
	outlet   float64 // K
	wanted   float64 // W to the thermostat
	burning  burning
	residual float64
}

// coupledSolver holds what the states of one loop share. It stays in the workspace,
// with the memory that the next loop uses.
type coupledSolver struct {
	in    *coupledIn
	l     *coupledLoop
	p     pumpIn // a copy, whose belts follow the speed
	on    *bench
	feeds []feed
	fan   int // feed of the burner, −1: its fan stays at its plate
	fanAt int // the burner among the loads of that feed
	plate []firePlate
	curve *fuel.PowerCurve

	res         hydraulics.Result
	lines       *numbers // as the block of the lines solved them
	index       []int    // of the states of lines, by own guns; −1: none
	power, flow []float64
	left        []float64 // of power: those an hour can answer
	done        []bool
	chosen      []int
	states      []State
	solved      []coupledState
}

func (in *coupledIn) solver(l *coupledLoop) (*coupledSolver, error) {
	s := scratch[coupledSolver](in.w)
	s.in, s.l, s.on, s.p, s.fan, s.fanAt, s.curve = in, l, in.bench(), in.lines.in.pumps[l.pump], -1, 0, nil
	s.feeds, s.plate, s.states, s.solved = s.feeds[:0], s.plate[:0], s.states[:0], s.solved[:0]
	add := func(source int, driven bool, eff, belt float64) error {
		n := len(s.feeds)
		if n == cap(s.feeds) {
			s.feeds = append(s.feeds, feed{})
		}
		s.feeds = s.feeds[:n+1]
		f, err := in.feed(s.feeds[n].loads, source, driven, eff, belt)
		s.feeds[n] = f
		return err
	}
	if l.engine != nil {
		for _, b := range l.engine.belts {
			if err := add(b.source, true, b.eff, b.belt); err != nil {
				return nil, err
			}
		}
		if len(l.engine.curve) > 0 {
			c, err := fuel.NewPowerCurve(l.engine.curve)
			if err != nil {
				return nil, units.At("engines["+l.engine.id+"].curve", err)
			}
			s.curve = c
		}
	}
	if l.fire == nil || l.fire.load < 0 {
		return s, nil
	}
	for i := range s.feeds {
		if s.feeds[i].source == l.fire.source {
			s.fan = i
		}
	}
	if s.fan < 0 {
		if err := add(l.fire.source, false, 1, 1); err != nil {
			return nil, err
		}
		s.fan = len(s.feeds) - 1
	}
	for k := range s.feeds[s.fan].loads {
		if s.feeds[s.fan].loads[k].at == l.fire.load {
			s.fanAt = k
		}
	}
	return s, nil
}

// electric returns what the belt generators take and the share of its air that
// the burner's fan moves, with the engine at x.
func (s *coupledSolver) electric(x float64) (belts, air float64, err error) {
	air = 1
	for i := range s.feeds {
		f := &s.feeds[i]
		sup, err := s.in.supply(f, s.l.engine, x)
		if err != nil {
			return 0, 0, units.At("sources["+f.id+"]", err)
		}
		sum := 0.0
		for k := range f.loads {
			w, speed, err := f.loads[k].draw(sup, s.in.wiring.in.sources[f.source].frequency)
			if err != nil {
				return 0, 0, units.At("loads["+f.loads[k].name+"]", err)
			}
			sum += w
			if i == s.fan && k == s.fanAt && speed == speed {
				air = speed
			}
		}
		if f.driven {
			belts += sum / (f.eff * f.belt)
		}
	}
	return belts, air, nil
}

// errStalls says that no speed of the engine's curve carries the loop.
var errStalls = errors.New("the engine stalls")

// state solves one joint state: the lines with a set of own guns open, in an
// hour.
//
// The speed of the engine is the only number that is solved for at the outside.
// At a speed the generators give voltage and frequency, these the loads and the
// fan, the fan the air of the fire; the fire and the flow give the temperature,
// pressure and temperature the properties of the water, these the flow and the
// pressure of the lines. What pump and generators then take decides the speed.
func (s *coupledSolver) state(set, h int) (coupledState, error) {
	in, e, p := s.in, s.l.engine, &s.p
	st := coupledState{x: 1}
	if e != nil {
		full, err := s.available(h)
		if err != nil || full <= 0 {
			return st, err
		}
		st.full = full
	}
	cold := in.lines.in.water
	hot, target := cold, cold
	if s.l.fire != nil && s.plate[h].rate > 0 {
		target = p.heater.thermostat
		hot = target
	}
	guess := p.unloader
	if guess == 0 {
		guess = p.max
	}
	if k := s.index[set]; k >= 0 { // the loop is closed near the lines as they are alone
		if row := s.lines.of(mPumpPressure, p.id); row != nil && row[k] > 0 {
			guess = units.Pressure(row[k])
		}
	}
	res := &s.res
	name := func() string { return fmt.Sprintf("pump %s, own guns %b, hour %d", p.id, set, h+1) }

	// heat burns for the flow of the last solution at a pressure.
	heat := func(press units.Pressure, air float64) error {
		if s.l.fire == nil || s.plate[h].rate == 0 || set == 0 {
			return nil
		}
		line := lineAbsolute(float64(press), in.site)
		through := res.Supplies[0].Line
		q, err := thermal.HeatRequired(through, cold, target, line)
		if err != nil {
			return err
		}
		st.wanted = float64(q)
		st.burning = s.plate[h].at(air, float64(q))
		if st.burning.heat >= st.wanted {
			hot = target
			return nil
		}
		o, err := thermal.OutletTemperature(through, cold, units.Power(st.burning.heat), line)
		if err != nil {
			return err
		}
		hot = target
		if o.Phase != thermal.Runaway && o.Temperature.Kelvin() < target.Kelvin() {
			hot = o.Temperature
		}
		return nil
	}
	run := func(press units.Pressure) error {
		abs := lineAbsolute(float64(press), in.site)
		a, err := s.on.fluid(abs, cold)
		if err != nil {
			return err
		}
		b, err := s.on.fluid(abs, hot)
		if err != nil {
			return err
		}
		return s.on.ws.Solve(s.on.network(p, set, a, b, units.VolumeFlow(st.x)*p.flow), res)
	}
	// lines solves water and fire at the speed st.x and returns what is asked of
	// the engine.
	lines := func() (float64, error) {
		belts, air, err := s.electric(st.x)
		if err != nil {
			return 0, err
		}
		st.belts = belts
		at := func(press units.Pressure) error {
			for it := 0; ; it++ {
				if err := run(press); err != nil {
					return err
				}
				was := hot.Kelvin()
				if err := heat(press, air); err != nil {
					return err
				}
				shift := math.Abs(hot.Kelvin() - was)
				if shift < 1e-10 {
					return nil
				}
				if it == 100 {
					return &units.SolverError{Solver: "temperature of the coupled lines", State: name(), Iterations: it, Residual: shift}
				}
			}
		}
		if err := meet(at, res, guess); err != nil {
			return 0, err
		}
		guess = max(res.Pressure, 1)
		shaft, err := hydraulics.ShaftPower(units.VolumeFlow(st.x)*p.flow, max(res.Supplies[0].Pressure, 0), p.eff, p.belt)
		if err != nil {
			return 0, err
		}
		st.shaft = float64(shaft)
		return st.shaft + st.belts, nil
	}
	governed := func(demand float64) float64 { return 1 + e.droop*(1-math.Min(demand/st.full, 1)) }

	err := func() error {
		if e == nil {
			_, err := lines()
			return err
		}
		if err := s.govern(&st, lines, governed, name); err != nil {
			return err
		}
		if s.curve != nil && st.x == 1 && st.shaft+st.belts > st.full*(1+1e-12) {
			return s.lug(&st, lines)
		}
		return nil
	}()
	if err != nil {
		var dead *hydraulics.DeadHeadError
		if errors.As(err, &dead) || errors.Is(err, errStalls) {
			return st, nil
		}
		return st, err
	}
	sup := res.Supplies[0]
	st.ok, st.pressure, st.flow, st.through, st.outlet = true, float64(sup.Pressure), st.x*float64(p.flow), float64(sup.Line), hot.Kelvin()

	// The residual: every equation once more from the state alone.
	x, p0, t0 := st.x, res.Pressure, hot
	belts, air, err := s.electric(x)
	if err != nil {
		return st, err
	}
	if err := run(p0); err != nil {
		return st, err
	}
	if err := heat(p0, air); err != nil {
		return st, err
	}
	st.residual = math.Max(math.Abs(float64(res.Pressure-p0))/math.Max(math.Abs(float64(p0)), 1), math.Abs(hot.Kelvin()-t0.Kelvin())/t0.Kelvin())
	if e != nil {
		shaft, err := hydraulics.ShaftPower(units.VolumeFlow(x)*p.flow, max(res.Supplies[0].Pressure, 0), p.eff, p.belt)
		if err != nil {
			return st, err
		}
		demand := float64(shaft) + belts
		open := math.Abs(governed(demand) - x)
		if x < 1 {
			has, err := s.curveAt(&st)
			if err != nil {
				return st, err
			}
			open = math.Abs(demand-has) / has
		}
		st.residual = math.Max(st.residual, open)
	}
	if !(st.residual < mostResidual) {
		return st, &units.SolverError{Solver: "engine, generator, fire and lines together", State: name(), Residual: st.residual, Lo: 1, Hi: x}
	}
	return st, nil
}

// available is the power that the engine has for hours in an hour of the site.
func (s *coupledSolver) available(h int) (float64, error) {
	in, e := s.in, s.l.engine
	if !in.known || len(in.hours) == 0 || !in.hours[h].air.Given() {
		return float64(e.rating), nil
	}
	has, err := e.engine.Available(fuel.Site{Elevation: in.elevation, Air: in.hours[h].air})
	return float64(has.Power), units.At("engines["+e.id+"]", err)
}

// mostResidual is the relative mismatch above which a joint state is no answer.
const mostResidual = 1e-9

// govern finds the speed at which the governor answers what is asked. A droop of a
// few per cent leaves at most that share of the error in a step; where that is not
// enough the speed is bracketed, since more speed asks more and is answered less.
func (s *coupledSolver) govern(st *coupledState, lines func() (float64, error), governed func(float64) float64, name func() string) error {
	const close = 1e-13
	st.x = 1 + s.l.engine.droop/2
	for range 12 {
		d, err := lines()
		if err != nil {
			return err
		}
		moved := governed(d) - st.x
		if math.Abs(moved) <= close {
			return nil
		}
		st.x += moved
	}
	var failed error
	x, it, err := root.Bracketed(func(x float64) float64 {
		st.x = x
		d, err := lines()
		if err != nil {
			failed = err
			return math.NaN()
		}
		return governed(d) - x
	}, 1, 1+s.l.engine.droop, close)
	if failed != nil {
		return failed
	}
	if err != nil {
		return &units.SolverError{Solver: "speed of the coupled engine", State: name(), Iterations: it, Residual: math.Abs(x - st.x), Lo: 1, Hi: 1 + s.l.engine.droop}
	}
	st.x = x
	_, err = lines()
	return err
}

// curveAt is what the wide-open engine gives at a speed, at the site and for hours.
func (s *coupledSolver) curveAt(st *coupledState) (float64, error) {
	nr := float64(s.l.engine.noLoad) / (1 + s.l.engine.droop)
	lo, hi := float64(s.curve.Lowest()), float64(s.curve.Highest())
	at, err := s.curve.PowerAt(units.RotationalSpeed(math.Min(math.Max(st.x*nr, lo), hi)))
	if err != nil {
		return 0, err
	}
	ref, err := s.curve.PowerAt(units.RotationalSpeed(math.Min(math.Max(nr, lo), hi)))
	if err != nil {
		return 0, err
	}
	return st.full * float64(at/ref), nil
}

// lug finds the highest speed below the governed one at which the engine, wide
// open, carries what is asked of it.
func (s *coupledSolver) lug(st *coupledState, lines func() (float64, error)) error {
	nr := float64(s.l.engine.noLoad) / (1 + s.l.engine.droop)
	low := float64(s.curve.Lowest()) / nr
	if !(low < 1) {
		return nil // the curve begins at the governed speed: nothing is known below it
	}
	var failed error
	spare := func(x float64) float64 {
		st.x = x
		d, err := lines()
		if err == nil {
			var has float64
			if has, err = s.curveAt(st); err == nil {
				return has - d
			}
		}
		failed = err
		return math.NaN()
	}
	const steps = 8
	above := 1.0
	for i := 1; i <= steps; i++ {
		x := 1 + (low-1)*float64(i)/steps
		v := spare(x)
		if failed != nil {
			return failed
		}
		if v < 0 {
			above = x
			continue
		}
		x, _, err := root.Bracketed(spare, x, above, 1e-14)
		if failed != nil {
			return failed
		}
		if err != nil {
			return err
		}
		st.x = x
		_, err = lines()
		return err
	}
	return errStalls
}

// front adds to out the sets of own guns whose joint states are solved; power and flow
// are those of the lines, not a number where the lines have no answer.
//
// In an hour a joint state is decided by the power that the pump takes, which sets
// the speed, and by the flow through the heater, which shares out the heat. Less
// speed is less frequency, voltage, air and clean firing, and more demand. Opening
// a gun never raises the pressure, at any speed: the least speed is that of the
// smallest sets, a gun alone, or no gun where nothing is heated. The heat of a fire
// rises with its air until all fuel burns and falls with the excess beyond, so
// between two speeds it is never less than the lesser of both ends; more flow makes
// the outlet colder. A set is therefore left out where it is not one of the
// smallest, another has as much flow and as much power, and one has as much flow
// and as little power. The test over every set holds this.
func front(out []int, power, flow []float64) []int {
	const tie = 1e-9
	beats := func(a, b int, sign float64) bool { // a stands in for b
		if a == b || math.IsNaN(power[a]) {
			return false
		}
		more, level := sign*(power[a]-power[b]), tie*math.Max(power[a], power[b])
		far, same := flow[a]-flow[b], tie*math.Max(flow[a], flow[b])
		if more < -level || far < -same {
			return false
		}
		return more > level || far > same || a > b // of equals the last, with most guns, stays
	}
	for b := range power {
		if math.IsNaN(power[b]) {
			continue
		}
		up, down := false, false
		for a := range power {
			up, down = up || beats(a, b, 1), down || beats(a, b, -1)
		}
		if !up || !down || b&(b-1) == 0 {
			out = append(out, b)
		}
	}
	return out
}

// solveCoupled returns the joint states that survive [front], by hour.
func solveCoupled(in *coupledIn) ([]*numbers, error) { return in.solve(false) }

func (in *coupledIn) solve(every bool) ([]*numbers, error) {
	if len(in.loops) == 0 {
		return nil, nil
	}
	lines, err := in.lines.within(in.w)
	if err != nil || len(lines) == 0 {
		return nil, err
	}
	var of [8]*numbers
	out := of[:0]
	for i := range in.loops {
		n, err := in.loop(&in.loops[i], lines[0], every)
		if err != nil {
			return nil, fmt.Errorf("pumps[%s]: %w", in.lines.in.pumps[in.loops[i].pump].id, err)
		}
		if n != nil {
			out = append(out, n)
		}
	}
	return in.out(out...), nil
}

// ownState is the state of the lines block with a set of a pump's own guns open
// and every other gun closed.
func (in *coupledIn) ownState(p *pumpIn, set int) State {
	guns := 0
	for k := range p.lines {
		if set&(1<<k) != 0 {
			guns |= 1 << p.lines[k].bit
		}
	}
	s := State{set: in.axes}.with(AxisGuns, guns+1)
	if in.lines.in.hasHeat {
		s = s.with(AxisHeat, heatSteady)
	}
	return s
}

func (in *coupledIn) loop(l *coupledLoop, lines *numbers, every bool) (*numbers, error) {
	s, err := in.solver(l)
	if err != nil {
		return nil, err
	}
	p := &s.p
	sets := 1 << len(p.lines)
	s.lines = lines
	s.index, s.power, s.flow = s.index[:0], s.power[:0], s.flow[:0]
	for set := range sets {
		s.index = append(s.index, slices.Index(lines.states, in.ownState(p, set)))
		s.power, s.flow = append(s.power, math.NaN()), append(s.flow, 0)
	}
	power, flow := s.power, s.flow
	shaft := lines.of(mPumpShaft, p.id)
	for set, k := range s.index {
		if k < 0 || math.IsNaN(shaft[k]) {
			continue
		}
		for j := range p.lines {
			if row := lines.of(mLineFlow, p.lines[j].id); set&(1<<j) != 0 && row[k] == row[k] {
				flow[set] += row[k]
			}
		}
		if set == 0 && l.fire != nil || set > 0 && flow[set] <= 0 {
			continue // no flow, no fire
		}
		power[set] = shaft[k]
	}
	hours := max(len(in.hours), 1)
	if l.fire != nil {
		asked := 0.0
		if k := s.index[sets-1]; k >= 0 {
			if row := lines.of(mHeat, l.fire.heater); row != nil && row[k] == row[k] {
				asked = row[k]
			}
		}
		for h := range hours {
			x, err := in.plate(l.fire, asked, h)
			if outside(err) {
				x, err = firePlate{}, nil
			}
			if err != nil {
				return nil, units.At("heaters["+l.fire.heater+"]", err)
			}
			s.plate = append(s.plate, x)
		}
	}
	for h := range hours {
		if err := s.hour(h, every); err != nil {
			return nil, err
		}
	}
	n := in.newNumbers(append(in.room(len(s.states)), s.states...))
	w := coupledRows{n, s}
	w.add()
	for i := range s.solved {
		if err := w.put(i, &s.solved[i]); err != nil {
			return nil, err
		}
	}
	return n, nil
}

// keep takes a joint state of an hour.
func (s *coupledSolver) keep(set, h int, x *coupledState) {
	st := s.in.ownState(&s.p, set)
	if len(s.in.wiring.in.electric.in.plugs) > 0 {
		st = st.with(AxisPlugs, 1)
	}
	if len(s.in.hours) > 0 {
		st = st.with(AxisSite, s.in.hours[h].state)
	}
	s.states, s.solved = append(s.states, st), append(s.solved, *x)
}

// hour solves the joint states of one hour. Where one on the front has no answer,
// because the engine stalls or a correlation ends, it stands in for no other, and
// the front of the rest is looked at as well. Where the engine may be pulled down
// its curve, far from the speed at which the lines were solved, every set is.
func (s *coupledSolver) hour(h int, every bool) error {
	s.left, s.done = append(s.left[:0], s.power...), s.done[:0]
	for range s.left {
		s.done = append(s.done, false)
	}
	left, done := s.left, s.done
	if s.curve != nil {
		full, err := s.available(h)
		if err != nil {
			return err
		}
		belts, _, err := s.electric(1)
		if err != nil {
			return err
		}
		for _, x := range s.power {
			every = every || x+belts > full
		}
	}
	for {
		if s.chosen = s.chosen[:0]; every {
			for set := range left {
				if left[set] == left[set] {
					s.chosen = append(s.chosen, set)
				}
			}
		} else {
			s.chosen = front(s.chosen, left, s.flow)
		}
		lost := false
		for _, set := range s.chosen {
			if done[set] {
				continue
			}
			done[set] = true
			st, err := s.state(set, h)
			if err != nil && !outside(err) {
				return err
			}
			if err != nil || !st.ok {
				left[set], lost = math.NaN(), true
				continue
			}
			s.keep(set, h, &st)
		}
		if !lost {
			return nil
		}
	}
}

// coupledRows are the rows of one loop. They are made before any is filled,
// because making one moves the others.
type coupledRows struct {
	n *numbers
	s *coupledSolver
}

// add makes the rows.
func (w *coupledRows) add() {
	n, s := w.n, w.s
	for _, m := range []*Metric{mCoupledPressure, mCoupledFlow, mCoupledResidual} {
		n.row(m, s.p.id)
	}
	if e := s.l.engine; e != nil {
		n.row(mCoupledSpeed, e.id)
		n.row(mCoupledDemand, e.id)
		for i := range s.feeds {
			if f := &s.feeds[i]; f.driven && f.fixed.frequency != 0 {
				n.row(mCoupledFrequency, f.id)
				n.row(mCoupledVoltage, f.id)
			}
		}
	}
	for i := range s.feeds {
		for k := range s.feeds[i].loads {
			if l := &s.feeds[i].loads[k]; (s.feeds[i].driven || i == s.fan && k == s.fanAt) && l.law != lawConstant && l.law != lawResistive {
				n.row(mCoupledMotor, l.name)
			}
		}
	}
	if f := s.l.fire; f != nil {
		for _, m := range []*Metric{mCoupledClean, mAirNumber, mCoupledEfficiency, mFireHeat, mFireDuty, mCoupledOutlet} {
			n.row(m, f.heater)
		}
	}
}

func (w *coupledRows) put(at int, st *coupledState) error {
	set := func(m *Metric, part string, v float64) {
		if row := w.n.of(m, part); row != nil {
			row[at] = v
		}
	}
	s := w.s
	set(mCoupledPressure, s.p.id, st.pressure)
	set(mCoupledFlow, s.p.id, st.flow)
	set(mCoupledResidual, s.p.id, st.residual)
	if e := s.l.engine; e != nil {
		set(mCoupledSpeed, e.id, st.x*float64(e.noLoad)/(1+e.droop))
		set(mCoupledDemand, e.id, st.shaft+st.belts)
	}
	for i := range s.feeds {
		f := &s.feeds[i]
		sup, err := s.in.supply(f, s.l.engine, st.x)
		if err != nil {
			return err
		}
		rated := &s.in.wiring.in.sources[f.source]
		if f.driven {
			set(mCoupledFrequency, f.id, sup.frequency)
			set(mCoupledVoltage, f.id, sup.share*float64(rated.voltage))
		}
		for k := range f.loads {
			if _, speed, err := f.loads[k].draw(sup, rated.frequency); err != nil {
				return err
			} else if f.driven || i == s.fan && k == s.fanAt {
				set(mCoupledMotor, f.loads[k].name, speed)
			}
		}
	}
	if f := s.l.fire; f != nil && st.wanted > 0 {
		set(mCoupledClean, f.heater, st.burning.clean)
		set(mAirNumber, f.heater, st.burning.lambda)
		set(mCoupledEfficiency, f.heater, st.burning.efficiency)
		set(mFireHeat, f.heater, math.Min(st.burning.heat, st.wanted))
		if st.burning.heat > 0 {
			set(mFireDuty, f.heater, math.Min(st.wanted/st.burning.heat, 1))
		}
		set(mCoupledOutlet, f.heater, st.outlet)
	}
	return nil
}
