package rig

import (
	"errors"
	"math"
	"slices"
	"sort"
	"strings"

	"example.com/washrig/electrical"
	"example.com/washrig/fuel"
	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// wiringIn is what conductors, dips, the burner's fan, the 12 V side and starts
// on an engine depend on, beyond the electric and the engines block. Sources
// and loads stand in the order of those of the electric block.
type wiringIn struct {
	work
	plugged  [][][]int // loads in order of name, by plug assignment and source
	drawn    []wired   // of the loads
	axes     *axisSet
	electric *block[electricIn]
	engines  *block[enginesIn]
	pressure units.AbsolutePressure
	known    bool // the elevation was given
	sources  []windingIn
	loads    []wiredIn
	outlets  []outletIn
	cords    []cordIn
	heaters  []fannedIn
	battery  []batteryIn
	direct   []directIn
	stages   []electrical.Stage
}

// windingIn is a source as its voltage sees it.
type windingIn struct {
	voltage     units.Voltage
	legs        int
	frequency   units.Frequency
	poles       int
	speed, idle units.RotationalSpeed
	droop, knee units.Ratio
	reactance   units.Ratio
	inertia     units.Duration
	governor    units.Duration
	efficiency  units.Ratio
	idlePower   units.Power
	breaker     units.Current
	battery     string
	neutral     string
	set         electrical.Set // fuel and noise of its own engine
}

// wiredIn is a load as its wires see it.
type wiredIn struct {
	source   int // as listed
	may      []int
	outlet   int // as listed; −1: none named
	short    bool
	voltage  units.Voltage
	leakage  units.Current
	burner   bool
	class    string
	poles    int
	speed    units.RotationalSpeed
	breakage units.Ratio // greatest torque over rated torque
}

type outletIn struct {
	id        string
	source    int
	breaker   units.Current // the smaller of breaker and receptacle; zero: neither is given
	protected string
}

type cordIn struct {
	id       string
	source   int // −1: wherever its loads are plugged in
	loads    []int
	circuit  electrical.Circuit // without its supply
	gauge    electrical.Gauge
	ampacity units.Current
	carrying int
}

// fannedIn is a heater whose burner draws from a source.
type fannedIn struct {
	id    string
	clean units.FuelRate
	load  int
}

type batteryIn struct {
	id                     string
	voltage                units.Voltage
	capacity               units.Charge
	rate                   units.Duration
	exponent               units.Ratio
	usable, charge         units.Ratio
	coldCranking, cranking units.Current
	charging, standby      units.Current
	loads                  []electrical.DirectLoad
	inverters              []int // sources it feeds
}

type directIn struct {
	id      string
	battery int
	current units.Current
	circuit electrical.Circuit
}

func (m *Model) wiringInput(b *blocks) wiringIn {
	s := m.spec
	in := wiringIn{axes: m.axes, electric: b.electric, engines: b.engines}
	in.pressure, in.known = sitePressure(s)
	in.plugIn()
	sourceAt, loadAt, batteryAt := map[string]int{}, map[string]int{}, map[string]int{}
	for i := range s.Sources {
		g := &s.Sources[i]
		sourceAt[g.ID] = i
		w := windingIn{g.Voltage, g.Legs, g.Frequency, g.Poles, g.Speed, g.IdleSpeed, g.Droop, g.RegulatorKnee, g.TransientReactance, g.Inertia, g.GovernorTime,
			g.Efficiency, g.IdlePower, g.Breaker, g.Battery, g.Neutral, electrical.Set{}}
		if g.ownEngine() && g.FullLoadRate != 0 && g.HalfLoadRate != 0 { // a straight line through both
			w.set = electrical.Set{Place: g.ID, Idle: min(max(2*g.HalfLoadRate-g.FullLoadRate, 0), g.FullLoadRate), Rated: g.FullLoadRate, Noise: float64(g.Noise)}
		}
		in.sources = append(in.sources, w)
	}
	for i := range s.Outlets {
		o := &s.Outlets[i]
		x := outletIn{o.ID, sourceAt[o.Source], o.Breaker, o.GroundFault}
		if r, err := electrical.OutletNamed(o.Receptacle); err == nil && (x.breaker == 0 || r.Current < x.breaker) {
			x.breaker = r.Current
		}
		in.outlets = append(in.outlets, x)
	}
	for i := range s.Loads {
		l := &s.Loads[i]
		loadAt[l.ID] = i
		w := wiredIn{source: sourceAt[l.Source], outlet: -1, short: l.Use == "short", voltage: l.Voltage, leakage: l.Leakage,
			burner: l.Class == "burner", class: l.Class, poles: l.FanPoles, speed: l.FanSpeed, breakage: l.FanBreakdown}
		for _, id := range l.May {
			w.may = append(w.may, sourceAt[id])
		}
		for k := range s.Outlets {
			if s.Outlets[k].ID == l.Outlet {
				w.outlet = k
			}
		}
		in.loads = append(in.loads, w)
	}
	for i := range s.Cords {
		c := &s.Cords[i]
		x := cordIn{id: c.ID, source: -1, gauge: gaugeOf(c.Gauge), ampacity: c.Ampacity, carrying: c.Carrying,
			circuit: electrical.Circuit{Conductor: electrical.Conductor{Gauge: gaugeOf(c.Gauge)}, Length: c.Length, Temperature: c.Temperature}}
		if c.Source != "" {
			x.source = sourceAt[c.Source]
		}
		for _, id := range c.Loads {
			x.loads = append(x.loads, loadAt[id])
		}
		in.cords = append(in.cords, x)
	}
	sort.SliceStable(in.cords, func(a, b int) bool { // from the source to the load
		x, y := &in.cords[a], &in.cords[b]
		if len(x.loads) != len(y.loads) {
			return len(x.loads) > len(y.loads)
		}
		return x.id < y.id
	})
	for i := range s.Heaters {
		h := &s.Heaters[i]
		if k := burnerOf(s, h.ID); k >= 0 && h.CleanFiring != 0 {
			in.heaters = append(in.heaters, fannedIn{h.ID, h.CleanFiring, k})
		}
	}
	for i := range s.Batteries {
		k := &s.Batteries[i]
		batteryAt[k.ID] = i
		x := batteryIn{id: k.ID, voltage: k.Voltage, capacity: k.Capacity, rate: k.Rate, exponent: k.Exponent, usable: k.Usable, charge: k.StateOfCharge,
			coldCranking: k.ColdCranking, cranking: k.Cranking, charging: k.Charging, standby: k.Standby}
		for j := range s.Sources {
			if s.Sources[j].Battery == k.ID {
				x.inverters = append(x.inverters, j)
			}
		}
		in.battery = append(in.battery, x)
	}
	for i := range s.DirectLoads {
		d := &s.DirectLoads[i]
		b := batteryAt[d.Battery]
		in.battery[b].loads = append(in.battery[b].loads, electrical.DirectLoad{Name: d.ID, Current: d.Current, Duty: d.Duty})
		in.direct = append(in.direct, directIn{d.ID, b, d.Current, electrical.Circuit{Conductor: electrical.Conductor{Gauge: gaugeOf(d.Gauge)}, Length: d.Length,
			Temperature: units.Celsius(50), Supply: s.Batteries[b].Voltage}})
	}
	for i := range in.battery {
		sort.Slice(in.battery[i].loads, func(a, b int) bool { return in.battery[i].loads[a].Name < in.battery[i].loads[b].Name })
	}
	for i := range s.Modes {
		if t := &s.Modes[i]; t.Time != 0 {
			in.stages = append(in.stages, electrical.Stage{Name: t.ID, On: t.Loads, Duration: t.Time})
		}
	}
	return in
}

// burnerOf returns the index of the load that is the burner of a heater, −1 if
// none is told: the one that names it, or the only burner there is beside the
// only heater.
func burnerOf(s *Spec, heater string) int {
	found, burners := -1, 0
	for i := range s.Loads {
		l := &s.Loads[i]
		if l.Heater == heater && l.Class == "burner" {
			return i
		}
		if l.Class == "burner" && l.Heater == "" {
			found = i
			burners++
		}
	}
	if burners == 1 && len(s.Heaters) == 1 {
		return found
	}
	return -1
}

// A phasor is a power or a current by its active and non-active parts.
type phasor struct{ p, n float64 }

func (a phasor) plus(b phasor) phasor   { return phasor{a.p + b.p, a.n + b.n} }
func (a phasor) times(x float64) phasor { return phasor{a.p * x, a.n * x} }
func (a phasor) size() float64          { return math.Sqrt(a.p*a.p + a.n*a.n) }
func (a phasor) demand() electrical.Demand {
	return electrical.Demand{Power: units.Power(a.p), Apparent: units.ApparentPower(a.size())}
}
func phasorOf(p, s float64) phasor               { return phasor{p, math.Sqrt(max(s-p, 0) * (s + p))} }
func (in *wiringIn) load(j int) *electrical.Load { return &in.electric.in.loads[j] }

// wired is what a load draws; known is false where nothing tells its volt-amperes.
type wired struct {
	run, start           phasor
	runKnown, startKnown bool
}

// running and starting return what a load draws; ok is false where nothing
// tells its volt-amperes.
func (in *wiringIn) running(j int) (phasor, bool)  { return in.drawn[j].run, in.drawn[j].runKnown }
func (in *wiringIn) starting(j int) (phasor, bool) { return in.drawn[j].start, in.drawn[j].startKnown }

// on returns the loads of a source in a plug assignment, in order of name.
func (in *wiringIn) on(plug, source int) []int {
	if plug >= len(in.plugged) {
		return nil
	}
	return in.plugged[plug][source]
}

// plugIn lists the loads of every source in every plug assignment.
func (in *wiringIn) plugIn() {
	e := &in.electric.in
	for j := range e.loads {
		l := &e.loads[j]
		in.drawn = append(in.drawn, wired{
			phasorOf(float64(l.Running), float64(l.RunningApparent)), phasorOf(float64(l.Starting), float64(l.StartingApparent)),
			l.RunningApparent > 0, l.StartingApparent > 0,
		})
	}
	byName := make([]int, len(e.loads))
	for j := range byName {
		byName[j] = j
	}
	slices.SortFunc(byName, func(a, b int) int { return strings.Compare(in.load(a).Name, in.load(b).Name) })
	in.plugged = make([][][]int, len(e.plugs))
	for p := range e.plugs {
		in.plugged[p] = make([][]int, len(e.sources))
		for _, j := range byName {
			if k := e.plugs[p].source[j]; k >= 0 {
				in.plugged[p][k] = append(in.plugged[p][k], j)
			}
		}
	}
}

// outletOf returns the outlet of a load that is plugged into a source: the one
// it names at home, else the only one there is; −1 if that is not told.
func (in *wiringIn) outletOf(j, source int) int {
	if in.loads[j].outlet >= 0 && in.outlets[in.loads[j].outlet].source == source {
		return in.loads[j].outlet
	}
	found := -1
	for i := range in.outlets {
		if in.outlets[i].source == source {
			if found >= 0 {
				return -1
			}
			found = i
		}
	}
	return found
}

// volts returns the voltage a load is made for on a source: that of one leg, or
// of both where its plate says so.
func (in *wiringIn) volts(j, source int) float64 {
	g := &in.sources[source]
	v := float64(g.voltage)
	if g.legs == 2 && float64(in.loads[j].voltage) > 1.5*v {
		return 2 * v
	}
	return v
}

// supply is a source with its loads running.
type supply struct {
	share     float64 // voltage over the rated one
	frequency float64 // Hz; zero: the source has no voltage given
	noLoad    float64
}

// supplyOf returns what is left of a source's voltage and frequency under a
// running load.
func (in *wiringIn) supplyOf(source int, running float64) (supply, error) {
	g := &in.sources[source]
	if g.voltage == 0 {
		return supply{}, nil
	}
	s := supply{1, float64(g.frequency), float64(g.frequency)}
	if g.poles == 0 || g.speed == 0 {
		return s, nil
	}
	f, err := electrical.GeneratorFrequency(g.speed, g.poles)
	if err != nil {
		return supply{}, err
	}
	s.noLoad = float64(f)
	if g.droop != 0 {
		share := units.Ratio(min(running/float64(in.electric.in.sources[source].running), 2))
		if f, err = electrical.DroopFrequency(f, g.droop, share); err != nil {
			return supply{}, err
		}
	}
	v, err := electrical.RegulatedVoltage(g.voltage, g.frequency, f, g.knee)
	if err != nil {
		return supply{}, err
	}
	s.share, s.frequency = float64(v/g.voltage), float64(f)
	return s, nil
}

// end is the far end of the cords of a load.
type end struct {
	voltage float64
	lost    float64 // share of the supply, in the cords alone
	corded  bool    // some cord lies before the load
	known   bool    // every gauge is given
}

// starters are the loads of a source that start while the others run: one, and with
// auto set, all that start by themselves. The one is −1 where none starts.
type starters struct {
	one  int
	auto bool
}

// nobody starts.
var nobody = starters{one: -1}

// startsOf says which loads start with load j: one that is started by hand starts
// alone, on top of everything else, and all that start by themselves start together.
func (in *wiringIn) startsOf(j int) starters {
	return starters{j, in.load(j).Starts == electrical.ByItself}
}

// starts reports whether a load is among them.
func (in *wiringIn) starts(s starters, k int) bool {
	return k == s.one || s.auto && in.load(k).Starts == electrical.ByItself
}

// draw says what a load draws at full voltage while some start.
func (in *wiringIn) draw(s starters, k int) (phasor, bool) {
	if in.starts(s, k) {
		return in.starting(k)
	}
	return in.running(k)
}

// wire checks the conductors of every cord that has a gauge, over wires; nil where one
// has to say what is wrong when it is asked.
func (in *wiringIn) wire(wires []electrical.Wire) []electrical.Wire {
	wires = wires[:0]
	for i := range in.cords {
		var w electrical.Wire
		if in.cords[i].gauge != 0 {
			var err error
			if w, err = in.cords[i].circuit.Wire(); err != nil {
				return nil
			}
		}
		wires = append(wires, w)
	}
	return wires
}

// endOf follows the cords from a source to a load while some of its loads start; wires are
// those of the cords, or nil;
// impedance takes what they draw as impedances, as in a start, where the cords hold
// back the current, else as given currents.
func (in *wiringIn) endOf(wires []electrical.Wire, j, source int, on []int, share float64, impedance bool, start starters) (end, error) {
	rated := in.volts(j, source)
	e := end{voltage: rated * share, known: true}
	before := e.voltage
	for i := range in.cords {
		c := &in.cords[i]
		if !slices.Contains(c.loads, j) || (c.source >= 0 && c.source != source) {
			continue
		}
		e.corded = true
		var sum phasor
		for _, k := range on {
			if !slices.Contains(c.loads, k) {
				continue
			}
			d, ok := in.draw(start, k)
			if !ok {
				e.known = false
				return e, nil
			}
			sum = sum.plus(d.times(1 / in.volts(k, source)))
		}
		if c.gauge == 0 {
			e.known = false
			return e, nil
		}
		size := sum.size()
		if size == 0 {
			continue
		}
		supply, current, factor := units.Voltage(e.voltage), units.Current(size), units.Ratio(min(sum.p/size, 1))
		var w electrical.Wire
		var d electrical.Drop
		var err error
		if wires != nil {
			w = wires[i]
		} else {
			w, err = c.circuit.Wire()
		}
		switch {
		case err != nil:
		case impedance:
			d, err = w.StartDrop(supply, current, units.Voltage(rated), factor)
		default:
			d, err = w.Drop(supply, current, factor)
		}
		switch {
		case err == nil:
		case errors.Is(err, units.ErrRange): // nothing is left of the voltage
			e.voltage, e.lost = 0, 1
			return e, nil
		default:
			return e, err
		}
		e.voltage = float64(d.AtLoad)
	}
	e.lost = (before - e.voltage) / before
	return e, nil
}

// alternator returns the winding of a source; ok is false without a reactance.
func (in *wiringIn) alternator(source int) (electrical.Alternator, bool) {
	g, s := &in.sources[source], &in.electric.in.sources[source]
	a := electrical.Alternator{Rating: s.runningApparent, TransientReactance: g.reactance}
	if a.Rating == 0 {
		a.Rating = units.ApparentPower(s.running)
	}
	return a, g.reactance != 0
}

// dip returns the share of its voltage that a source loses when some of its
// loads start while the others run.
func (in *wiringIn) dip(source int, on []int, starting starters) (float64, bool, error) {
	a, ok := in.alternator(source)
	if !ok {
		return 0, false, nil
	}
	var run, start phasor
	for _, k := range on {
		r, known := in.running(k)
		if !known {
			return 0, false, nil
		}
		if in.starts(starting, k) {
			s, _ := in.starting(k)
			start = start.plus(s)
		} else {
			run = run.plus(r)
		}
	}
	if start.size() == 0 {
		return 0, true, nil
	}
	d, err := a.StartDip(run.demand(), start.demand())
	return float64(d), err == nil, err
}

// wiringRoom is what solving the block needs besides.
type wiringRoom struct {
	out     []*numbers
	rows    []plugRow
	heads   []plugHead
	first   []int32 // by the metric's row in the table, where its head is if it has one
	hours   []State
	wires   []electrical.Wire
	loads   []electrical.Load
	legs    []electrical.LegLoad
	starter electrical.Starter

	direct []electrical.DirectLoad

	plan   electrical.PlugPlan
	places []string
	sets   []electrical.Set
	plugs  electrical.Plugs
}

// plugRow is a row by plug assignment that is kept by name until all are filled, so
// that none is made that stays empty.
type plugRow struct {
	part   string
	values []float64
	next   int32 // row of the same metric that comes next by name; −1: none
}

// plugHead is the first row of a metric by name.
type plugHead struct {
	metric *Metric
	row    int32
}

// put writes one number.
func (in *wiringIn) put(room *wiringRoom, m *Metric, part string, p int, v float64) {
	h := int(room.first[m.row])
	if h >= len(room.heads) || room.heads[h].metric != m {
		h = len(room.heads)
		room.first[m.row] = int32(h)
		room.heads = append(room.heads, plugHead{m, -1})
	}
	at := &room.heads[h].row
	for *at >= 0 && room.rows[*at].part < part {
		at = &room.rows[*at].next
	}
	if *at >= 0 && room.rows[*at].part == part {
		room.rows[*at].values[p] = v
		return
	}
	row := in.floats(max(len(in.electric.in.plugs), 1))
	for i := range row {
		row[i] = math.NaN()
	}
	row[p] = v
	r := plugRow{part, row, *at}
	*at = int32(len(room.rows))
	room.rows = append(room.rows, r)
}

// fill writes the rows as the table lists their metrics, those of one metric by name.
func (room *wiringRoom) fill(n *numbers) {
	for i := 1; i < len(room.heads); i++ {
		for j := i; j > 0 && room.heads[j].metric.row < room.heads[j-1].metric.row; j-- {
			room.heads[j], room.heads[j-1] = room.heads[j-1], room.heads[j]
		}
	}
	for _, h := range room.heads {
		for at := h.row; at >= 0; at = room.rows[at].next {
			copy(n.row(h.metric, room.rows[at].part), room.rows[at].values)
		}
	}
}

// solveWiring returns the numbers of outlets, cords, dips and fans by plug
// assignment, of clean firing and the 12 V side by hour, and of starts on the
// engines.
func solveWiring(in *wiringIn) ([]*numbers, error) {
	room := scratch[wiringRoom](in.w)
	room.out, room.hours = room.out[:0], room.hours[:0]
	byPlug, err := solveConductors(in, room)
	if err != nil {
		return nil, err
	}
	if err := solveFanned(in, room, byPlug); err != nil {
		return nil, err
	}
	if err := solveEngineStarts(in, room); err != nil {
		return nil, err
	}
	if err := solveDirect(in, room); err != nil {
		return nil, err
	}
	if err := solveLeftOff(in, room); err != nil {
		return nil, err
	}
	return in.out(room.out...), nil
}

// solveConductors adds what depends on the plugs alone, and returns what changes with
// them.
func solveConductors(in *wiringIn, room *wiringRoom) (*numbers, error) {
	if len(in.sources) == 0 {
		return nil, nil
	}
	plugs := max(len(in.electric.in.plugs), 1)
	states := in.room(plugs)
	for p := range plugs {
		s := State{set: in.axes}
		if len(in.electric.in.plugs) > 0 {
			s = s.with(AxisPlugs, p+1)
		}
		states = append(states, s)
	}
	byPlug, always := in.newNumbers(states), in.newNumbers(in.one(in.axes))
	room.rows, room.heads = room.rows[:0], room.heads[:0]
	if room.first == nil {
		room.first = make([]int32, len(metricTable))
	}
	room.wires = in.wire(room.wires)
	for p := range plugs {
		for k := range in.sources {
			if err := in.solveSource(room, p, k); err != nil {
				return nil, err
			}
		}
		in.solveOutlets(room, p)
		in.solveCords(room, p)
	}
	in.solveFixed(always)
	room.fill(byPlug)
	room.out = append(room.out, always, byPlug)
	return byPlug, nil
}

// solveSource puts the numbers of one source and its loads in one assignment.
func (in *wiringIn) solveSource(room *wiringRoom, p, k int) error {
	src, g := &in.electric.in.sources[k], &in.sources[k]
	on := in.on(p, k)
	running := 0.0
	for _, j := range on {
		running += float64(in.load(j).Running)
	}
	s, err := in.supplyOf(k, running)
	if err != nil {
		return units.At("sources["+src.id+"]", err)
	}
	if s.frequency == 0 {
		return nil
	}
	in.put(room, mSourceVoltage, src.id, p, s.share*float64(g.voltage))
	in.put(room, mFrequency, src.id, p, s.frequency)
	if g.poles != 0 && g.speed != 0 {
		rated := float64(g.frequency)
		in.put(room, mFrequencyOff, src.id, p, max(math.Abs(s.frequency-rated), math.Abs(s.noLoad-rated))/rated)
	}
	if g.legs == 2 {
		if err := in.solveLegs(room, p, k, on); err != nil {
			return err
		}
	}
	deepest, frequencyDip, err := in.dips(room, k, on)
	if err != nil {
		return units.At("sources["+src.id+"]", err)
	}
	if !math.IsNaN(deepest) {
		in.put(room, mVoltageDip, src.id, p, deepest)
	}
	if !math.IsNaN(frequencyDip) {
		in.put(room, mFrequencyDip, src.id, p, frequencyDip)
	}
	for _, j := range on {
		if err := in.solveLoad(room, p, k, j, on, &s); err != nil {
			return units.At("loads["+in.load(j).Name+"]", err)
		}
	}
	return nil
}

// dips returns the deepest dips of voltage and frequency over the steps of the
// hand order; what is not known is not a number.
func (in *wiringIn) dips(room *wiringRoom, k int, on []int) (voltage, frequency float64, err error) {
	voltage, frequency = math.NaN(), math.NaN()
	src, g := &in.electric.in.sources[k], &in.sources[k]
	governed := g.inertia != 0 && g.governor != 0 && g.droop != 0
	if (g.reactance == 0 && !governed) || len(on) == 0 {
		return voltage, frequency, nil
	}
	room.loads = room.loads[:0]
	for _, j := range on {
		room.loads = append(room.loads, *in.load(j))
	}
	if err := room.starter.Set(room.loads); err != nil {
		return voltage, frequency, err
	}
	a, wound := in.alternator(k)
	largest := units.Power(math.Inf(-1)) // step of power: the frequency falls in proportion
	var failed error
	err = room.starter.EachBest(electrical.Limits{Start: src.starting, StartApparent: src.startingApparent}, func(starts uint64, before, peak electrical.Demand) {
		largest = max(largest, peak.Power-before.Power)
		if !wound || peak.Apparent == 0 || failed != nil {
			return
		}
		var start phasor
		for i, j := range on {
			if starts&(1<<i) != 0 {
				x, _ := in.starting(j)
				start = start.plus(x)
			}
		}
		d, err := a.StartDip(before, start.demand())
		if err != nil {
			failed = err
		} else if !(voltage >= float64(d)) {
			voltage = float64(d)
		}
	})
	if err = errors.Join(err, failed); err != nil {
		return voltage, frequency, err
	}
	if governed {
		d, err := electrical.Governed{Rated: src.running, Inertia: g.inertia, Droop: g.droop, TimeConstant: g.governor}.FrequencyDip(min(largest, 2*src.running))
		if err != nil {
			return voltage, frequency, err
		}
		frequency = float64(d.Dip)
	}
	return voltage, frequency, nil
}

// solveLegs puts the fuller leg of a 120/240 V source.
func (in *wiringIn) solveLegs(room *wiringRoom, p, k int, on []int) error {
	list := room.legs[:0]
	free := 0
	for _, j := range on {
		l := in.load(j)
		both := in.volts(j, k) > float64(in.sources[k].voltage)
		list = append(list, electrical.LegLoad{Name: l.Name, Power: l.Running, Apparent: l.RunningApparent, BothLegs: both})
		if !both {
			free++
		}
	}
	room.legs = list
	if len(list) == 0 || free > electrical.MaxLegLoads {
		return nil
	}
	b, err := electrical.FullerLeg(list, in.sources[k].voltage)
	if err != nil {
		return err
	}
	in.put(room, mLeg, in.electric.in.sources[k].id, p, float64(b)*float64(in.sources[k].voltage))
	return nil
}

// solveLoad puts the voltage at one load and, for a burner, the air of its fan.
func (in *wiringIn) solveLoad(room *wiringRoom, p, k, j int, on []int, s *supply) error {
	name := in.load(j).Name
	rated := in.volts(j, k)
	run, err := in.endOf(room.wires, j, k, on, s.share, false, nobody)
	if err != nil || !run.known {
		return err
	}
	in.put(room, mLoadVoltage, name, p, run.voltage)
	plate := rated
	if v := float64(in.loads[j].voltage); v != 0 {
		plate = v
	}
	in.put(room, mLoadShare, name, p, run.voltage/plate)
	if run.corded {
		in.put(room, mCordDrop, name, p, run.lost)
	}
	starting := in.startsOf(j)
	dip, dipped, err := in.dip(k, on, starting)
	if err != nil {
		return err
	}
	if run.corded || dipped {
		start, err := in.endOf(room.wires, j, k, on, s.share*(1-dip), true, starting)
		if err != nil {
			return err
		}
		if start.known {
			in.put(room, mLoadStart, name, p, start.voltage)
			if start.corded {
				in.put(room, mCordStartDrop, name, p, start.lost)
			}
		}
	}
	w := &in.loads[j]
	if !w.burner || w.speed == 0 || w.poles == 0 || w.breakage == 0 {
		return nil
	}
	fan := electrical.FanMotor{Voltage: units.Voltage(plate), Frequency: in.sources[k].frequency, Poles: w.poles, Speed: w.speed, Breakdown: w.breakage}
	a, err := fanAir(&fan, run.voltage, s.frequency)
	if err != nil {
		return err
	}
	in.put(room, mFanAir, name, p, a)
	if !dipped {
		return nil
	}
	return in.solveFanDip(room, p, k, j, on, s, &fan)
}

// solveFanDip puts the air of a burner's fan in the start of another load that
// costs it most, everything else running.
func (in *wiringIn) solveFanDip(room *wiringRoom, p, k, j int, on []int, s *supply, fan *electrical.FanMotor) error {
	least, found := math.Inf(1), false
	g, src := &in.sources[k], &in.electric.in.sources[k]
	for _, other := range on {
		if other == j {
			continue
		}
		dip, ok, err := in.dip(k, on, starters{one: other})
		if err != nil || !ok {
			return err
		}
		e, err := in.endOf(room.wires, j, k, on, s.share*(1-dip), true, starters{one: other})
		if err != nil || !e.known {
			return err
		}
		f := s.frequency
		if g.inertia != 0 && g.governor != 0 && g.droop != 0 {
			l := in.load(other)
			d, err := electrical.Governed{Rated: src.running, Inertia: g.inertia, Droop: g.droop, TimeConstant: g.governor}.FrequencyDip(min(l.Starting, 2*src.running))
			if err != nil {
				return err
			}
			f *= max(1-float64(d.Dip), 0)
		}
		a, err := fanAir(fan, e.voltage, f)
		if err != nil {
			return err
		}
		least, found = min(least, a), true
	}
	if found {
		in.put(room, mFanAirDip, in.load(j).Name, p, least)
	}
	return nil
}

// fanAir returns the share of its air that a fan moves; none where its motor
// pulls out or has next to no voltage or frequency.
func fanAir(m *electrical.FanMotor, voltage, frequency float64) (float64, error) {
	if voltage < 0.1*float64(m.Voltage) || frequency < 0.2*float64(m.Frequency) {
		return 0, nil
	}
	st, err := m.At(units.Voltage(min(voltage, 2*float64(m.Voltage))), units.Frequency(min(frequency, 2*float64(m.Frequency))))
	if err != nil {
		return 0, err
	}
	return float64(st.Air), nil
}

// solveOutlets puts currents of outlets.
func (in *wiringIn) solveOutlets(room *wiringRoom, p int) {
	for i := range in.outlets {
		o := &in.outlets[i]
		v := in.sources[o.source].voltage
		if v == 0 {
			continue
		}
		var all, counted phasor
		leak, known := 0.0, true
		for _, j := range in.on(p, o.source) {
			if in.outletOf(j, o.source) != i {
				continue
			}
			d, ok := in.running(j)
			if !ok {
				known = false
				break
			}
			d = d.times(1 / in.volts(j, o.source))
			all = all.plus(d)
			if !in.loads[j].short {
				d = d.times(1 / continuousShare)
			}
			counted = counted.plus(d)
			leak += float64(in.loads[j].leakage)
		}
		if !known {
			continue
		}
		in.put(room, mOutletCurrent, o.id, p, all.size())
		if o.breaker != 0 {
			in.put(room, mOutletLoading, o.id, p, counted.size()/float64(o.breaker))
		}
		if leak > 0 {
			in.put(room, mLeakage, o.id, p, leak)
		}
	}
}

// solveCords puts the current of each cord and the breaker before it: of the
// source with most where its loads are plugged into several.
func (in *wiringIn) solveCords(room *wiringRoom, p int) {
	for i := range in.cords {
		c := &in.cords[i]
		most, breaker := math.NaN(), 0.0
		for k := range in.sources {
			if in.sources[k].voltage == 0 || (c.source >= 0 && c.source != k) {
				continue
			}
			var sum phasor
			used, known := false, true
			for _, j := range in.on(p, k) {
				if !slices.Contains(c.loads, j) {
					continue
				}
				used = true
				d, ok := in.running(j)
				known = known && ok
				sum = sum.plus(d.times(1 / in.volts(j, k)))
				b := float64(in.sources[k].breaker)
				if o := in.outletOf(j, k); o >= 0 && in.outlets[o].breaker != 0 {
					b = float64(in.outlets[o].breaker)
				}
				breaker = max(breaker, b)
			}
			if used && known && !(most >= sum.size()) {
				most = sum.size()
			}
		}
		if !math.IsNaN(most) {
			in.put(room, mCordCurrent, c.id, p, most)
		}
		if breaker > 0 {
			in.put(room, mCordBreaker, c.id, p, breaker)
		}
	}
}

// solveFixed puts what no axis changes.
func (in *wiringIn) solveFixed(n *numbers) {
	for k := range in.sources {
		g, s := &in.sources[k], &in.electric.in.sources[k]
		if g.legs == 2 && g.voltage != 0 {
			rated := float64(s.runningApparent)
			if rated == 0 {
				rated = float64(s.limits(1).Rated)
			}
			n.row(mLegLimit, s.id)[0] = rated / 2
		}
		if g.idle != 0 && g.poles != 0 && g.voltage != 0 {
			f, err := electrical.GeneratorFrequency(g.idle, g.poles)
			if err != nil {
				continue // senseOfWiring refuses such poles
			}
			if v, err := electrical.RegulatedVoltage(g.voltage, g.frequency, f, g.knee); err == nil {
				n.row(mIdleVoltage, s.id)[0] = float64(v / g.voltage)
			}
		}
	}
	for i := range in.outlets {
		o := &in.outlets[i]
		if o.breaker == 0 {
			continue
		}
		v := float64(o.breaker)
		if o.protected == "yes" {
			v = 0
		}
		n.row(mUnguarded, o.id)[0] = v
	}
	for j := range in.loads {
		w := &in.loads[j]
		fits, other, known := 1, 0, len(w.may) > 0 && in.sources[w.source].neutral != ""
		for i, k := range w.may {
			known = known && in.sources[k].neutral != ""
			if k == w.source || slices.Contains(w.may[:i], k) {
				continue
			}
			if in.sources[k].neutral != in.sources[w.source].neutral {
				other++
			}
			fits++
		}
		if known {
			n.row(mOtherNeutral, in.load(j).Name)[0] = float64(other) / float64(fits)
		}
	}
	for i := range in.cords {
		c := &in.cords[i]
		a := c.ampacity
		if a == 0 && c.gauge != 0 {
			if x, _, err := electrical.CordAmpacity(c.gauge, c.carrying); err == nil { // the choices of the field lie inside the table
				a = x
			}
		}
		if a != 0 {
			n.row(mCordAmpacity, c.id)[0] = float64(a)
		}
	}
}

// solveFanned adds clean firing with the fan at its voltage, by hour, with the listed
// plugs.
func solveFanned(in *wiringIn, room *wiringRoom, byPlug *numbers) error {
	hours := in.electric.in.hours
	if !in.known || len(hours) == 0 || len(in.heaters) == 0 {
		return nil
	}
	n := in.newNumbers(in.byHour(room))
	clean := in.floats(len(hours))
	for i := range in.heaters {
		b := &in.heaters[i]
		solved := false
		for _, x := range [...]struct{ fan, clean *Metric }{{mFanAir, mCleanSupply}, {mFanAirDip, mCleanDip}} {
			air := byPlug.of(x.fan, in.load(b.load).Name)
			if air == nil || math.IsNaN(air[0]) {
				continue
			}
			if !solved {
				solved = true
				for k, h := range hours {
					r, err := thermal.CleanFiring(b.clean, in.pressure, h.air, 1)
					if err != nil {
						return err
					}
					clean[k] = float64(r)
				}
			}
			row := n.row(x.clean, b.id)
			for k := range hours {
				row[k] = clean[k] * air[0] // the fan law of thermal.CleanFiring, good for no air as well
			}
		}
	}
	room.out = append(room.out, n)
	return nil
}

// byHour returns the states of the site's hours.
func (in *wiringIn) byHour(room *wiringRoom) []State {
	if hours := in.electric.in.hours; len(room.hours) != len(hours) {
		room.hours = in.room(len(hours))
		for _, h := range hours {
			room.hours = append(room.hours, State{set: in.axes}.with(AxisSite, h.state))
		}
	}
	return room.hours
}

// solveEngineStarts adds the starts of belt generators to what is asked of the
// engines. Starts on several generators of one engine are taken to coincide.
func solveEngineStarts(in *wiringIn, room *wiringRoom) error {
	engines, err := in.engines.within(in.w)
	if err != nil || len(engines) == 0 {
		return err
	}
	electric, err := in.electric.within(in.w)
	if err != nil || len(electric) == 0 {
		return err
	}
	n, err := in.engineStarts(engines[0], electric[0], false)
	if err != nil {
		return err
	}
	room.out = append(room.out, n)
	if len(in.electric.in.modes) > 0 {
		if n, err = in.engineStarts(engines[1], electric[1], true); err != nil {
			return err
		}
		room.out = append(room.out, n)
	}
	site := in.engines.in.site
	if !site.Given() || len(in.engines.in.hours) == 0 {
		return nil
	}
	has := in.newNumbers(in.byHour(room))
	for i := range in.engines.in.engines {
		e := &in.engines.in.engines[i]
		if len(e.belts) == 0 {
			continue
		}
		engine := e.engine
		engine.Continuous = 1
		row := has.row(mEngineBrief, e.id)
		for k, h := range in.engines.in.hours {
			p, err := engine.Available(fuel.Site{Elevation: site, Air: h.air})
			if err != nil {
				return err
			}
			row[k] = float64(p.Power)
		}
	}
	room.out = append(room.out, has)
	return nil
}

// engineStarts adds what starts take to what is asked of the engines, by state of
// asked; by mode the states of electric are the same.
func (in *wiringIn) engineStarts(asked, electric *numbers, byMode bool) (*numbers, error) {
	hours := max(len(in.electric.in.hours), 1)
	n := in.newNumbers(asked.states)
	for i := range in.engines.in.engines {
		e := &in.engines.in.engines[i]
		demand := asked.of(mEngineDemand, e.id)
		if len(e.belts) == 0 || demand == nil {
			continue
		}
		row := n.row(mEngineStart, e.id)
		copy(row, demand)
		for _, b := range e.belts {
			run, start := electric.of(mRunning, b.id), electric.of(mStart, b.id)
			shaft := in.floats(len(run))
			for at := range shaft {
				p, err := electrical.ShaftPower(units.Power(max(start[at]-run[at], 0)), b.eff, b.belt)
				if err != nil {
					return nil, err
				}
				shaft[at] = float64(p)
			}
			for s := range asked.states {
				at := s
				if !byMode {
					st := &asked.states[s]
					at = max(int(st.v[AxisPlugs])-1, 0)*hours + max(int(st.v[AxisSite])-1, 0)
				}
				row[s] += shaft[at]
			}
		}
	}
	return n, nil
}

// chargeEfficiency is the charge that comes back out of a lead-acid battery
// over the charge that went in (common practice).
const chargeEfficiency = 0.85

// solveDirect adds the 12 V side.
func solveDirect(in *wiringIn, room *wiringRoom) error {
	if len(in.battery) == 0 {
		return nil
	}
	always := in.newNumbers(in.one(in.axes))
	hours := in.electric.in.hours
	byHour := in.newNumbers(in.byHour(room))
	left := in.floats(len(in.battery))
	for i := range in.battery {
		b := &in.battery[i]
		loads := append(room.direct[:0], b.loads...)
		for _, k := range b.inverters {
			running := units.Power(0)
			for _, j := range in.on(0, k) {
				running += in.load(j).Running
			}
			x, err := electrical.InverterInput(running, in.sources[k].efficiency, in.sources[k].idlePower, b.voltage)
			if err != nil {
				return units.At("sources["+in.electric.in.sources[k].id+"]", err)
			}
			if x > 0 {
				loads = append(loads, electrical.DirectLoad{Name: "inverter " + in.electric.in.sources[k].id, Current: x, Duty: 1})
			}
		}
		room.direct = loads
		average := units.Current(0)
		if len(loads) > 0 {
			d, err := electrical.BudgetDirect(b.charging, loads)
			if err != nil {
				return units.At("batteries["+b.id+"]", err)
			}
			average = d.Average
			always.row(mPeakCurrent, b.id)[0] = float64(d.Peak)
		}
		left[i] = math.NaN()
		if b.charging != 0 {
			left[i] = float64(b.charging - average)
			always.row(mNetCurrent, b.id)[0] = left[i]
		}
		if err := in.solveCold(b, hours, average, byHour); err != nil {
			return units.At("batteries["+b.id+"]", err)
		}
	}
	for i := range in.direct {
		d := &in.direct[i]
		if d.circuit.Conductor.Gauge != 0 && d.circuit.Length != 0 {
			x, err := d.circuit.Drop(d.current, 1)
			lost := float64(x.Share)
			if err != nil && errors.Is(err, units.ErrRange) {
				lost = 1 // nothing is left of the voltage
			} else if err != nil {
				return units.At("direct_loads["+d.id+"]", err)
			}
			always.row(mCableDrop, d.id)[0] = lost
		}
		duty := units.Ratio(1)
		for i := range in.battery[d.battery].loads {
			if l := &in.battery[d.battery].loads[i]; l.Name == d.id {
				duty = l.Duty
			}
		}
		if n := left[d.battery]; !math.IsNaN(n) && duty < 1 {
			x, err := electrical.SustainedDuty(units.Current(n+float64(d.current)*float64(duty)), d.current, chargeEfficiency)
			if err != nil {
				return units.At("direct_loads["+d.id+"]", err)
			}
			always.row(mSustained, d.id)[0] = float64(x)
		}
	}
	room.out = append(room.out, always, byHour)
	return nil
}

// solveCold puts what a battery gives by the hour. Hours colder than its table
// and currents outside Peukert's law have no reading.
func (in *wiringIn) solveCold(b *batteryIn, hours []hour, average units.Current, n *numbers) error {
	if b.capacity != 0 && average > 0 {
		n.row(mBatteryTime, b.id)
	}
	if b.capacity != 0 && b.standby != 0 {
		n.row(mStanding, b.id)
	}
	if b.coldCranking != 0 && b.cranking != 0 {
		n.row(mCranking, b.id)
	}
	// a row is good until the next is made
	off, standing, crank := n.of(mBatteryTime, b.id), n.of(mStanding, b.id), n.of(mCranking, b.id)
	for i, h := range hours {
		share, err := electrical.CapacityShare(h.air)
		if err != nil && errors.Is(err, units.ErrRange) {
			continue
		} else if err != nil {
			return err
		}
		if off != nil {
			t, err := electrical.Battery{Capacity: b.capacity * units.Charge(share*b.usable), Rate: b.rate, Exponent: float64(b.exponent)}.Runtime(average)
			if err == nil {
				off[i] = float64(t)
			} else if !errors.Is(err, units.ErrRange) {
				return err
			}
		}
		if standing != nil {
			t, err := electrical.StandingTime(b.capacity*units.Charge(share), b.usable, b.standby)
			if err == nil {
				standing[i] = float64(t)
			} else if !errors.Is(err, units.ErrRange) {
				return err
			}
		}
		if crank != nil {
			c, err := electrical.Cranking(b.coldCranking, b.charge, b.cranking, h.air)
			if err != nil {
				return err
			}
			crank[i] = float64(c.Reserve)
		}
	}
	return nil
}
