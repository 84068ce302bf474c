package thermal

import (
	"math"

	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// A Heater is a burner with its coil, as two heat stores: the metal, at one
// temperature, and the water in it, well mixed, so that the outlet has the
// temperature of the water inside.
//
//	Ms·cs·dTs/dt = Q̇(Ts) − K(Ts − Tw) − L(Ts − Ta)
//	Mw·cp·dTw/dt = K(Ts − Tw) − ṁ·cp(Tw − Tin)
//
// Q̇ is the heat of the fire, zero when it is out. The equations are linear and are
// solved exactly. A real coil is a long tube, not a mixed pot: its outlet answers a
// transit time later and more sharply, while times, duty and swings come out near.
type Heater struct {
	// Output is the heat that the gas gives to the metal at full fire.
	Output units.Power
	// Flame, if given, makes the output fall as the metal warms:
	// Q̇ = Output·(Flame − Ts)/(Flame − Reference). Reference is the
	// temperature of the metal at which Output holds, and required with it.
	Flame, Reference units.Temperature
	Metal            units.Mass         // of coil and whatever warms with it
	MetalHeat        units.SpecificHeat // of the metal: steel about 490 J/(kg·K)
	Water            units.Volume       // inside
	// Conductance from metal to water, scale and film included.
	Conductance units.ThermalConductance
	// Loss from the metal to the surroundings, zero for none; Surroundings is
	// required with it.
	Loss         units.ThermalConductance
	Surroundings units.Temperature
}

// A Feed is the water that passes a heater.
type Feed struct {
	Flow units.VolumeFlow // metered cold, zero when the trigger is released
	In   units.Temperature
	Line units.AbsolutePressure
}

// A Thermostat cuts the fire at its setting and calls for it a differential below.
type Thermostat struct {
	Setting      units.Temperature      // of the outlet, at which it cuts
	Differential units.TemperatureDelta // below the setting, at which it calls
	StopDelay    units.Duration         // from cut to fire out
	FireDelay    units.Duration         // from call to fire: purge and ignition
}

// A HeaterState is the state of a heater at a moment.
type HeaterState struct{ Metal, Water units.Temperature }

// A HeatBalance says where heat went in a span of time. Fired = Delivered + Lost +
// Stored.
type HeatBalance struct {
	Fired     units.Energy // from gas to metal
	Delivered units.Energy // carried out by the water, above its inlet
	Lost      units.Energy // to the surroundings
	Stored    units.Energy // in metal and water, negative if they cooled
}

// Validate reports every field that cannot be used.
func (h Heater) Validate() error {
	err := all(
		heating("output", h.Output),
		inside("metal", h.Metal, 0.1*units.Kilogram, 5000*units.Kilogram),
		inside("metalHeat", h.MetalHeat, 100, 2000),
		inside("water", h.Water, 0.01*units.Liter, 1*units.CubicMeter),
		inside("conductance", h.Conductance, 1*units.WattPerKelvin, 1e6*units.WattPerKelvin),
		inside("loss", h.Loss, 0, 1e4*units.WattPerKelvin),
	)
	if h.Flame.Given() {
		ferr := all(
			between("flame", h.Flame, units.Kelvin(500), units.Kelvin(3500)),
			between("reference", h.Reference, coldestAir, units.Kelvin(1000)),
		)
		if ferr == nil && h.Flame.Sub(h.Reference) < 100 {
			ferr = refuse("reference", h.Reference.String(), "100 K or more below the flame", units.ErrConflict)
		}
		err = all(err, ferr)
	}
	if h.Loss > 0 {
		err = all(err, between("surroundings", h.Surroundings, coldestAir, hottestAir))
	}
	return err
}

func (f Feed) validate() error {
	err := all(flowing("flow", f.Flow), between("in", f.In, coldestWater, hottestWater), linePressure("line", f.Line))
	if err == nil {
		err = liquidAt("in", float64(f.Line), f.In.Kelvin())
	}
	return err
}

func (t Thermostat) validate() error {
	return all(
		between("setting", t.Setting, coldestWater, hottestWater),
		inside("differential", t.Differential, 0.01, 200),
		inside("stopDelay", t.StopDelay, 0, 3600*units.Second),
		inside("fireDelay", t.FireDelay, 0, 3600*units.Second),
	)
}

func (s HeaterState) validate(path string) error {
	hottest := units.Kelvin(2000)
	return units.At(path, all(between("metal", s.Metal, coldestAir, hottest), between("water", s.Water, coldestWater, hottest)))
}

// network returns the two nodes with the fire burning or out. The heat capacity of
// the water is its mean from inlet to hot, so that a steady outlet at hot is that of
// the exact enthalpy; the water inside has the density at hot.
func (h Heater) network(f Feed, hot units.Temperature, firing bool) (twoNode, error) {
	p, Ti, Th := float64(f.Line), f.In.Kelvin(), hot.Kelvin()
	if err := liquidAt("hot", p, Th); err != nil {
		return twoNode{}, err
	}
	rhoIn, hIn, _, err := water.Caloric(p, Ti)
	if err != nil {
		return twoNode{}, units.At("in", err)
	}
	rho, h1, cp, err := water.Caloric(p, Th)
	if err != nil {
		return twoNode{}, units.At("hot", err)
	}
	if math.Abs(Th-Ti) > 0.01 {
		cp = (h1 - hIn) / (Th - Ti)
	}
	n := twoNode{
		Cs: float64(h.Metal) * float64(h.MetalHeat),
		Cw: float64(h.Water) * rho * cp,
		K:  float64(h.Conductance),
		L:  float64(h.Loss), Ta: h.Surroundings.Kelvin(),
		W: rhoIn * float64(f.Flow) * cp, Ti: Ti,
	}
	if firing {
		if h.Flame.Given() {
			n.Tg = h.Flame.Kelvin()
			n.G = float64(h.Output) / float64(h.Flame.Sub(h.Reference))
		} else {
			n.q = float64(h.Output)
		}
	}
	return n, nil
}

// out is the network with the fire out.
func (n twoNode) out() twoNode {
	n.q, n.G, n.Tg = 0, 0, 0
	return n
}

func (n *twoNode) balance(m *modes, from, to pair, t float64) HeatBalance {
	return n.balanceOf(m.integral(from, t), from, to, t)
}

// balanceOf is balance by the integral i.
func (n *twoNode) balanceOf(i, from, to pair, t float64) HeatBalance {
	return HeatBalance{
		Fired:     units.Energy(n.q*t + n.G*(n.Tg*t-i.s)),
		Delivered: units.Energy(n.W * (i.w - n.Ti*t)),
		Lost:      units.Energy(n.L * (i.s - n.Ta*t)),
		Stored:    units.Energy(n.Cs*(to.s-from.s) + n.Cw*(to.w-from.w)),
	}
}

// plus adds the parts of two spans.
func (b HeatBalance) plus(c HeatBalance) HeatBalance {
	return HeatBalance{b.Fired + c.Fired, b.Delivered + c.Delivered, b.Lost + c.Lost, b.Stored + c.Stored}
}

func (s HeaterState) pair() pair { return pair{s.Metal.Kelvin(), s.Water.Kelvin()} }

func (p pair) state() HeaterState { return HeaterState{units.Kelvin(p.s), units.Kelvin(p.w)} }

// After returns the state a time t after another, with the fire burning or out all
// the while, and where the heat went. hot is the outlet expected, for the heat
// capacity of the water. Without flow the water may pass any boiling point: compare
// it with [BoilingPoint].
//
// Range: hot below boiling at the line pressure, t up to 1e8 s.
func (h Heater) After(f Feed, hot units.Temperature, from HeaterState, firing bool, t units.Duration) (HeaterState, HeatBalance, error) {
	if err := all(h.Validate(), units.At("feed", f.validate()), between("hot", hot, coldestWater, hottestWater), from.validate("from"), inside("t", t, 0, mostDelay)); err != nil {
		return HeaterState{}, HeatBalance{}, err
	}
	n, err := h.network(f, hot, firing)
	if err != nil {
		return HeaterState{}, HeatBalance{}, err
	}
	m := n.solve()
	y := from.pair()
	z := m.at(y, float64(t))
	return z.state(), n.balance(&m, y, z, float64(t)), nil
}

// A WarmUp is the start of a heater from cold.
type WarmUp struct {
	// Reached says whether the outlet gets to the target. If not, Time is zero.
	Reached bool
	Time    units.Duration // from fire to target
	At      HeaterState    // at that time
	Balance HeatBalance    // until then
	// Settles is where a fire that is never cut ends; the water may be above
	// boiling there. Endless is true if it does not end: no flow and no loss.
	Settles HeaterState
	Endless bool
}

// WarmUp returns how long the outlet takes to the target with the fire at full,
// metal and water starting at start. The water reaches the gun later by
// [Hose.Arrival].
//
// Range: target below boiling at the line pressure.
func (h Heater) WarmUp(f Feed, start, target units.Temperature) (WarmUp, error) {
	if err := all(
		h.Validate(), units.At("feed", f.validate()),
		between("start", start, coldestWater, hottestWater), between("target", target, coldestWater, hottestWater),
	); err != nil {
		return WarmUp{}, err
	}
	n, err := h.network(f, target, true)
	if err != nil {
		return WarmUp{}, relabel(err, "hot", "target")
	}
	m := n.solve()
	y := pair{start.Kelvin(), start.Kelvin()}
	var w WarmUp
	if s, ok := m.steady(); ok {
		w.Settles = s.state()
	} else {
		w.Endless = true
	}
	t, ok := 0.0, true
	if y.w < target.Kelvin() {
		t, ok = m.reach(y, waterNode, target.Kelvin())
	}
	if ok {
		z := m.at(y, t)
		w.Reached, w.Time, w.At = true, units.Duration(t), z.state()
		w.Balance = n.balance(&m, y, z, t)
	}
	return w, nil
}

// A Regime is what a thermostat does at a flow.
type Regime uint8

// The zero Regime is invalid.
const (
	Continuous Regime = iota + 1 // fires all the time and does not pass the setting
	Cycling
	Idle // the inlet keeps the outlet above the call: never fires
)

var regimeNames = [...]string{"invalid regime", "continuous", "cycling", "idle"}

// String returns the regime in words.
func (r Regime) String() string {
	if int(r) >= len(regimeNames) {
		r = 0
	}
	return regimeNames[r]
}

// A Cycle is what a thermostat makes of a heater once all is in swing.
type Cycle struct {
	Regime          Regime
	Duty            units.Ratio     // share of time with fire: 1 if Continuous, 0 if Idle
	Fire, Pause     units.Duration  // with fire and without, zero unless Cycling
	Frequency       units.Frequency // of cycles, zero unless Cycling
	Highest, Lowest units.Temperature
	Mean            units.Temperature      // of the outlet over a cycle, all equal unless Cycling
	Overshoot       units.TemperatureDelta // Highest less the setting, not below 0
	CutOut          HeaterState            // as the fire goes out, or the steady state
	Balance         HeatBalance            // over a cycle; over a second if not Cycling
}

// Cycle returns how a thermostat runs a heater at a flow: the cycle that repeats
// itself after start-up.
//
// Fire burns from call plus FireDelay to cut plus StopDelay. The first half of the
// overshoot is the stop delay, the second the heat that the metal still holds above
// the water.
//
// Range: flow above 0; setting below boiling at the line pressure.
func (h Heater) Cycle(f Feed, c Thermostat) (Cycle, error) {
	if err := all(h.Validate(), units.At("feed", all(f.validate(), positive("flow", f.Flow, mostFlow))), units.At("thermostat", c.validate())); err != nil {
		return Cycle{}, err
	}
	on, err := h.network(f, c.Setting, true)
	if err != nil {
		return Cycle{}, relabel(err, "hot", "thermostat.setting")
	}
	off := on.out()
	mOn, mOff := on.solve(), off.solve()
	set, call := c.Setting.Kelvin(), c.Setting.Kelvin()-float64(c.Differential)
	steady := func(r Regime, n *twoNode, m *modes) (Cycle, error) {
		y, _ := m.steady() // water flows, so it settles
		T := units.Kelvin(y.w)
		k := Cycle{Regime: r, Highest: T, Lowest: T, Mean: T, CutOut: y.state(), Balance: n.balance(m, y, y, 1)}
		if r == Continuous {
			k.Duty = 1
		}
		return k, nil
	}
	hot, _ := mOn.steady()
	if hot.w <= set*(1+1e-12) {
		return steady(Continuous, &on, &mOn)
	}
	if cold, _ := mOff.steady(); cold.w >= call*(1-1e-12) {
		return steady(Idle, &off, &mOff)
	}

	w := swing{on: &mOn, off: &mOff, set: set, call: call, stop: float64(c.StopDelay), start: float64(c.FireDelay)}
	k, i, ok := w.settle()
	if !ok {
		return Cycle{}, &units.SolverError{Solver: "thermostat cycle", State: f.Flow.String(), Iterations: i}
	}
	return k, nil
}

// A swing is a heater that a thermostat fires and cuts.
type swing struct {
	on, off     *modes
	set, call   float64 // K
	stop, start float64 // s: delays of fire out and fire in
	stopped     carried // over the delays
	started     carried
	cut, called float64 // s: from fire to the cut, and from fire out to the call, as they were last
}

// settle follows cycles from fire to fire until they repeat. Each brings the metal
// closer to its own cycle by the factor e^(l2·period) or so, and two in a row show
// where that ends. It returns how many there were, and false if one does not end or
// they do not settle.
func (w *swing) settle() (k Cycle, cycles int, ok bool) {
	w.stopped, w.started = w.on.carried(w.stop), w.off.carried(w.start)
	y, last := pair{w.call, w.call}, pair{}
	for cycles = 1; cycles <= 10_000; cycles++ {
		z, ok := w.next(y)
		if !ok {
			return k, cycles, false
		}
		move := pair{z.s - y.s, z.w - y.w}
		if math.Abs(move.s)+math.Abs(move.w) <= 1e-11*w.set {
			return w.cycle(y), cycles, true
		}
		if r := move.s / last.s; math.Abs(r) < 0.5 {
			z.s += move.s * r / (1 - r)
			z.w += move.w * r / (1 - r)
			move = pair{}
		}
		y, last = z, move
	}
	return k, cycles, false
}

// next follows one cycle from the state y at which fire comes. It is false if the
// temperature does not get there.
func (w *swing) next(y pair) (z pair, ok bool) {
	// Fire to the cut. After a long fire delay the water may be above the
	// setting no more, so the crossing wanted is the upward one.
	if w.cut, y, ok = w.on.run(y, y.w < w.set, w.set, w.cut); !ok {
		return y, false
	}
	if w.stop > 0 {
		y = w.on.to(y, w.stopped)
	}
	// Without fire to the call, then the fire delay.
	if w.called, y, ok = w.off.run(y, y.w > w.call, w.call, w.called); !ok {
		return y, false
	}
	if w.start > 0 {
		y = w.off.to(y, w.started)
	}
	return y, true
}

// run brings the water to the target, near the time it took before, unless it is there.
func (m *modes) run(y pair, away bool, target, near float64) (float64, pair, bool) {
	if !away {
		return 0, y, true
	}
	t, ok := m.reachNear(y, waterNode, target, near)
	return t, m.at(y, t), ok
}

// cycle says what a cycle is made of that begins at y and takes the times of the last.
func (w *swing) cycle(y pair) Cycle {
	k := Cycle{Regime: Cycling}
	high, low, area := math.Inf(-1), math.Inf(1), 0.0
	span := func(m *modes, t float64) {
		z := m.at(y, t)
		high, low = max(high, y.w, z.w), min(low, y.w, z.w)
		if e := m.turn(y, waterNode); e < t {
			w := m.at(y, e).w
			high, low = max(high, w), min(low, w)
		}
		i := m.integral(y, t)
		area += i.w
		k.Balance = k.Balance.plus(m.n.balanceOf(i, y, z, t))
		y = z
	}
	span(w.on, w.cut)
	span(w.on, w.stop)
	k.CutOut = y.state()
	span(w.off, w.called)
	span(w.off, w.start)

	fire, pause := w.cut+w.stop, w.called+w.start
	period := fire + pause
	k.Fire, k.Pause = units.Duration(fire), units.Duration(pause)
	k.Duty = units.Ratio(fire / period)
	k.Frequency = units.Frequency(1 / period)
	k.Highest, k.Lowest, k.Mean = units.Kelvin(high), units.Kelvin(low), units.Kelvin(area/period)
	k.Overshoot = units.TemperatureDelta(math.Max(0, high-w.set))
	return k
}

// A Release is what happens in the heater when the trigger is let go.
type Release struct {
	// Peak is the highest temperature of the water that then stands in the
	// coil, Rise that less the water at release.
	Peak units.Temperature
	Rise units.TemperatureDelta
	// Time after release at which it is there; without loss it creeps up to the
	// peak, and Time is when 1 % of the rise is left.
	Time units.Duration
	// Boils is true if the peak lies above the boiling point at the line
	// pressure: then steam forms, and the peak is that of a liquid which
	// does not.
	Boils bool
}

// Release returns the overshoot of the water left standing in the coil when the
// flow stops in the given state, with the fire going on for lag: the time its flow
// or pressure switch takes.
//
// Range: state as of [Heater.Cycle] or [Heater.WarmUp]; lag up to an hour. What
// pressure the standing water makes is [ShutIn.Soak].
func (h Heater) Release(line units.AbsolutePressure, from HeaterState, lag units.Duration) (Release, error) {
	err := all(h.Validate(), linePressure("line", line), from.validate("from"), inside("lag", lag, 0, 3600*units.Second))
	if err == nil {
		err = liquidAt("from.water", float64(line), from.Water.Kelvin())
	}
	if err != nil {
		return Release{}, err
	}
	f := Feed{Flow: 0, In: from.Water, Line: line}
	on, err := h.network(f, from.Water, true)
	if err != nil {
		return Release{}, relabel(err, "hot", "from.water")
	}
	off := on.out()
	mOn, mOff := on.solve(), off.solve()
	y := from.pair()
	z := mOn.at(y, float64(lag))
	peak, at := math.Max(y.w, z.w), float64(lag)
	if y.w >= z.w {
		at = 0
	}
	switch t := mOff.turn(z, waterNode); {
	case off.L == 0 && z.s > z.w:
		// A closed system: both end at the mean.
		peak = (off.Cs*z.s + off.Cw*z.w) / (off.Cs + off.Cw)
		at = float64(lag) + math.Log(100)/-mOff.l2
	case t < longest:
		if w := mOff.at(z, t).w; w > peak {
			peak, at = w, float64(lag)+t
		}
	}
	r := Release{Peak: units.Kelvin(peak), Rise: units.TemperatureDelta(peak - y.w), Time: units.Duration(at)}
	if boils, ok := boilingAt(float64(line)); ok {
		r.Boils = peak > boils
	}
	return r, nil
}

// A Condensing is the dripping of a cold coil.
type Condensing struct {
	// Drips is true if the metal starts below the dew point, Time until its
	// mean passes it. Forever is true if it never does.
	Drips   bool
	Time    units.Duration
	Forever bool
	// ColdEnd is the metal where cold water enters, in steady operation:
	// Tin + Q̇/K. If it stays below the dew point, that end drips for ever.
	ColdEnd      units.Temperature
	ColdEndDrips bool
}

// Condensing returns how long the coil drips after a cold start: until its metal is
// warmer than the dew point of the flue gas, [Fuel.WaterDewPoint]. hot is the outlet
// expected.
func (h Heater) Condensing(f Feed, start, hot, dewPoint units.Temperature) (Condensing, error) {
	if err := all(
		h.Validate(), units.At("feed", f.validate()), between("start", start, coldestWater, hottestWater),
		between("hot", hot, coldestWater, hottestWater), between("dewPoint", dewPoint, coldestWater, units.Celsius(100)),
	); err != nil {
		return Condensing{}, err
	}
	n, err := h.network(f, hot, true)
	if err != nil {
		return Condensing{}, err
	}
	m := n.solve()
	y := pair{start.Kelvin(), start.Kelvin()}
	var c Condensing
	if dew := dewPoint.Kelvin(); y.s < dew {
		t, ok := m.reach(y, metalNode, dew)
		c.Drips, c.Forever, c.Time = true, !ok, units.Duration(t)
	}
	cold := f.In.Add(units.TemperatureDelta(float64(h.Output) / float64(h.Conductance)))
	c.ColdEnd, c.ColdEndDrips = cold, cold.Kelvin() < dewPoint.Kelvin()
	return c, nil
}

// relabel gives the field of an error the name by which the caller knows it.
func relabel(err error, from, to string) error {
	if e, ok := err.(*units.FieldError); ok && e.Path == from {
		c := *e
		c.Path = to
		return &c
	}
	return err
}
