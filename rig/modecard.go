package rig

import (
	"math"
	"slices"
	"strings"

	"example.com/washrig/units"
)

// A ModeCard is what is done by hand in one mode: where everything stands, the
// order of switching on, what the mode does to weight and water, and the order of
// shutting down and letting the pressure out.
type ModeCard struct {
	ID      string           `json:"id"`
	Title   string           `json:"title"`
	State   State            `json:"state"`
	Time    units.Duration   `json:"time"`    // hours of it in a day; zero: not given
	Guns    []string         `json:"guns"`    // lines with a gun open
	Valves  []CardValve      `json:"valves"`  // every valve of the model
	Ends    []CardEnd        `json:"ends"`    // every loose hose end
	Plugs   []CardPlug       `json:"plugs"`   // loads of this mode
	Off     []Path           `json:"off"`     // engines, sources, burners and loads that stay off
	Start   []CardStep       `json:"start"`   // in order
	Shut    []CardShut       `json:"shut"`    // what must be shut or closed, and why
	Protect []CardProtection `json:"protect"` // what people wear
	Water   []CardWater      `json:"water"`
	Weight  CardWeight       `json:"weight"`
	Stop    []CardStep       `json:"stop"` // shutting down and letting the pressure out, in order
	Trapped []CardTrapped    `json:"trapped"`
}

// A CardValve is one valve and its position in a mode.
type CardValve struct {
	Path Path   `json:"path"` // the component it belongs to
	What string `json:"what"`
	Open bool   `json:"open"`
	Why  string `json:"why,omitempty"`
}

// A CardEnd is a loose hose end and its place in a mode.
type CardEnd struct {
	ID      string `json:"id"`
	Carries string `json:"carries"`
	At      string `json:"at,omitempty"` // the tank; empty: stowed
	Moved   bool   `json:"moved"`        // from where the specification lists it
}

// A CardPlug is where a load of a mode is plugged in.
type CardPlug struct {
	Load   string      `json:"load"`
	Source string      `json:"source"`
	Outlet string      `json:"outlet,omitempty"`
	Moved  bool        `json:"moved"`   // from where the specification lists it
	ByHand bool        `json:"by_hand"` // else it starts by itself, at any time
	Runs   units.Power `json:"runs"`
	Starts units.Power `json:"starts"`
}

// A CardShut is something that must be shut in a mode.
type CardShut struct {
	Path Path   `json:"path"`
	Why  string `json:"why"`
}

// A CardProtection is what people wear in a mode, and against what.
type CardProtection struct {
	Against string `json:"against"`
	Wear    string `json:"wear"`
	Why     string `json:"why"`
}

// A CardWater is one tank in a mode.
type CardWater struct {
	Tank     string           `json:"tank"`
	Holds    string           `json:"holds"`   // as the specification says
	Becomes  string           `json:"becomes"` // after the mode, by open valves and hose ends
	Drawn    units.VolumeFlow `json:"drawn"`   // by the clock
	Returned units.VolumeFlow `json:"returned"`
	Lasts    units.Duration   `json:"lasts"`      // from full to dry; zero: it does not run dry
	FullIn   units.Duration   `json:"full_in"`    // from empty to full; zero: it does not fill
	Mist     bool             `json:"breathed"`   // guns of the mode spray it
	Joined   []string         `json:"joined"`     // tanks that an open crossover joins to it
	Feeds    []string         `json:"feeds_pump"` // pumps that draw from it
}

// A CardWeight is what a mode changes in weight, from tanks that give full and
// tanks that take empty, fuel full. Zero time: nothing changes, or weights are not
// known.
type CardWeight struct {
	After  units.Duration `json:"after"`
	Until  string         `json:"until"` // what ends it: a tank dry or full, or the time of the mode
	Total  units.Mass     `json:"total"` // change; negative: lighter
	Tongue units.Mass     `json:"tongue"`
}

// A CardTrapped is a section that can hold pressure when everything is off.
type CardTrapped struct {
	Path     Path           `json:"path"`
	Section  string         `json:"section"`
	Pressure units.Pressure `json:"pressure"` // at most; zero: not known
	LetOut   string         `json:"let_out"`  // how
}

// ModeCards returns a card for each mode, in the dealer's order. They are made
// from the report and hold no judgement; its findings stand beside them.
func (r *Report) ModeCards() ([]ModeCard, error) {
	m := r.model
	list := modesOf(m.spec)
	var out []ModeCard
	for k, ms := range m.Modes() {
		mode := &list[k]
		b := cardBuilder{r: r, m: m, s: m.spec, mode: mode, at: State{set: m.axes}.with(AxisMode, k+1)}
		b.c = ModeCard{ID: ms.ID, Title: ms.Title, State: ms.State, Time: mode.Time, Guns: ms.Guns}
		if err := b.build(); err != nil {
			return nil, err
		}
		out = append(out, b.c)
	}
	return out, nil
}

// A cardBuilder gathers one card.
type cardBuilder struct {
	r    *Report
	m    *Model
	s    *Spec
	mode *Mode
	at   State // the mode alone
	c    ModeCard

	run    running
	sprays []string // chemicals
}

func (b *cardBuilder) build() error {
	b.run = runsIn(b.s, b.mode)
	b.whatRuns()
	b.whatIsSprayed()
	b.valves()
	b.ends()
	b.plugs()
	b.waters()
	b.weight()
	b.shut()
	b.trapped()
	b.protect()
	if err := b.start(); err != nil {
		return err
	}
	b.stop()
	return nil
}

func (b *cardBuilder) gun(id string) bool { return slices.Contains(b.c.Guns, id) }

// whatRuns splits engines, sources, burners and loads into those that a mode needs
// and those that stay off.
func (b *cardBuilder) whatRuns() {
	off := func(list, id string, on bool) {
		if !on {
			b.c.Off = append(b.c.Off, Path(list+"["+id+"]"))
		}
	}
	for i := range b.s.Heaters {
		off("heaters", b.s.Heaters[i].ID, b.run.heater(b.s.Heaters[i].ID))
	}
	for i := range b.s.Engines {
		off("engines", b.s.Engines[i].ID, b.run.engine(b.s.Engines[i].ID))
	}
	for i := range b.s.Sources {
		off("sources", b.s.Sources[i].ID, b.run.source(b.s.Sources[i].ID))
	}
	for i := range b.s.Loads {
		off("loads", b.s.Loads[i].ID, b.run.load(b.s.Loads[i].ID))
	}
}

// whatIsSprayed lists the chemicals of a mode: those it names, and those that no
// mode names and that one of its guns may draw.
func (b *cardBuilder) whatIsSprayed() {
	named := map[string]bool{}
	for _, m := range b.s.Modes {
		for _, id := range m.Sprays {
			named[id] = true
		}
	}
	for i := range b.s.Chemicals {
		c := &b.s.Chemicals[i]
		may := len(b.c.Guns) > 0
		if c.Injector.given() {
			may = b.gun(c.Injector.Line)
		}
		if slices.Contains(b.mode.Sprays, c.ID) || !named[c.ID] && may {
			b.sprays = append(b.sprays, c.ID)
		}
	}
}

func (b *cardBuilder) valves() {
	s := b.s
	add := func(p Path, what string, open bool, why string) {
		b.c.Valves = append(b.c.Valves, CardValve{p, what, open, why})
	}
	contents := contentsOf(s)
	for i := range s.Pumps {
		p := &s.Pumps[i]
		if p.Suction.Strainer.Valve == "yes" {
			add(Path("pumps["+p.ID+"]"), "suction valve between tank "+p.Tank+" and the strainer of pump "+p.ID, true, "a pump that draws against a shut valve is ruined in minutes")
		}
	}
	for i := range s.Crossovers {
		c := &s.Crossovers[i]
		open, why := openIn(c, b.mode), ""
		if contents[c.From] != contents[c.To] {
			why = "tank " + c.From + " holds " + contents[c.From] + " water, tank " + c.To + " " + contents[c.To]
		}
		add(Path("crossovers["+c.ID+"]"), "crossover "+c.ID+", tank "+c.From+" to tank "+c.To, open, why)
	}
	for i := range s.Tanks {
		t := &s.Tanks[i]
		if t.Dump.Bore != 0 || t.DumpValve != "" {
			add(Path("tanks["+t.ID+"]"), "dump valve of tank "+t.ID, false, "locked and capped on the road")
		}
	}
	for i := range s.Lines {
		l := &s.Lines[i]
		for _, e := range l.Elements {
			if e.Sort == "valve" {
				add(Path("lines["+l.ID+"]"), "valve "+e.ID+" in line "+l.ID, b.gun(l.ID), "")
			}
		}
	}
	for i := range s.Trunks {
		t := &s.Trunks[i]
		used := false
		for k := range s.Lines {
			used = used || s.Lines[k].Trunk == t.ID && b.gun(s.Lines[k].ID)
		}
		for _, e := range t.Elements {
			if e.Sort == "valve" {
				add(Path("trunks["+t.ID+"]"), "valve "+e.ID+" in trunk "+t.ID, used, "")
			}
		}
	}
	for i := range s.Chemicals {
		c := &s.Chemicals[i]
		if c.Injector.given() {
			why := ""
			if slices.Contains(b.sprays, c.ID) {
				why = "opened at its step, with water running and protection on"
			}
			add(Path("chemicals["+c.ID+"]"), "metering valve of "+c.ID, false, why)
		}
	}
	for i := range s.Supplies {
		w := &s.Supplies[i]
		at := Path("supplies[" + w.ID + "]")
		if w.Pump != "" {
			add(at, "feed valve of supply "+w.ID+" to pump "+w.Pump, slices.Contains(b.run.pumps, w.Pump), "a pump that runs against a shut valve is ruined in minutes")
			continue
		}
		add(at, "fill valve of supply "+w.ID+" into tank "+w.Tank, false, "open only while somebody stands by and fills")
	}
}

func contentsOf(s *Spec) map[string]string {
	out := map[string]string{}
	for i := range s.Tanks {
		out[s.Tanks[i].ID] = s.Tanks[i].Contents
	}
	return out
}

func (b *cardBuilder) ends() {
	for i := range b.s.HoseEnds {
		e := &b.s.HoseEnds[i]
		at := endIn(e, b.mode)
		b.c.Ends = append(b.c.Ends, CardEnd{ID: e.ID, Carries: e.Carries, At: at, Moved: at != e.At})
	}
}

func (b *cardBuilder) plugs() {
	for i := range b.s.Loads {
		if l := &b.s.Loads[i]; b.run.load(l.ID) {
			p := CardPlug{Load: l.ID, Source: b.mode.sourceOf(l), Outlet: l.Outlet, ByHand: l.Starts == "by-hand", Runs: l.Running, Starts: l.Starting}
			if p.Moved = p.Source != l.Source; p.Moved {
				p.Outlet = "" // the listed one is on the other source
			}
			b.c.Plugs = append(b.c.Plugs, p)
		}
	}
}

// foulness ranks what a tank may hold.
var foulness = map[string]int{"clean": 0, "treated": 1, "recovered": 2, "chemical": 3}

func (b *cardBuilder) waters() {
	s := b.s
	index := map[string]int{}
	for i := range s.Tanks {
		index[s.Tanks[i].ID] = i
	}
	joined := joinedIn(s, b.mode, index)
	follow := contentsIn(s, b.mode, false)
	for i := range s.Tanks {
		t := &s.Tanks[i]
		w := CardWater{Tank: t.ID, Holds: t.Contents, Becomes: follow[i].Holds}
		for k := range s.Tanks {
			if k != i && joined[k] == joined[i] {
				w.Joined = append(w.Joined, s.Tanks[k].ID)
			}
		}
		for k := range s.Pumps {
			if s.Pumps[k].Tank != t.ID {
				continue
			}
			w.Feeds = append(w.Feeds, s.Pumps[k].ID)
			for g := range s.Lines {
				w.Mist = w.Mist || s.Lines[g].Pump == s.Pumps[k].ID && b.gun(s.Lines[g].ID)
			}
		}
		number := func(m *Metric) float64 {
			x, ok := b.r.At(m.at(t.ID), b.at)
			if !ok {
				return 0
			}
			return x.Value.SI()
		}
		w.Drawn, w.Returned = units.VolumeFlow(number(mWaterDrawn)), units.VolumeFlow(number(mWaterReturned))
		w.Lasts, w.FullIn = units.Duration(number(mWaterHours)), units.Duration(number(mWaterFull))
		b.c.Water = append(b.c.Water, w)
	}
}

// weight follows the tanks until one is dry or full, or the time of the mode is up.
// Axles that spring each by itself are left out: their share depends on the load.
func (b *cardBuilder) weight() {
	in := b.m.blocks.statics.in
	if !in.present || in.independent {
		return
	}
	after, until := math.Inf(1), ""
	end := func(t float64, what string) {
		if t > 0 && t < after {
			after, until = t, what
		}
	}
	end(float64(b.mode.Time), "the time of this mode")
	for _, w := range b.c.Water {
		end(float64(w.Lasts), "tank "+w.Tank+" is dry")
		end(float64(w.FullIn), "tank "+w.Tank+" is full")
	}
	rates := make([]float64, len(in.liquids)) // kg/s
	for i, w := range b.c.Water {
		part := 1.0
		if len(w.Joined) > 0 {
			part = float64(b.s.Tanks[i].Usable) / b.m.blocks.water.in.heldFor(i, b.at)
		}
		rates[i] = (float64(w.Returned) - float64(w.Drawn)) * part * float64(in.density[i])
	}
	for i := range b.s.FuelTanks {
		t := &b.s.FuelTanks[i]
		if x, ok := b.r.At(mTankRate.at(t.ID), b.at); ok {
			rates[len(b.s.Tanks)+i] = -x.Value.SI() * float64(in.density[len(b.s.Tanks)+i])
		}
		if x, ok := b.r.At(mTankHours.at(t.ID), b.at); ok {
			end(x.Value.SI(), "fuel tank "+t.ID+" is dry")
		}
	}
	if math.IsInf(after, 1) {
		return
	}
	axle, base := in.trailer.AxleGroup, float64(in.trailer.AxleGroup.Sub(in.trailer.Coupler))
	total, tongue := 0.0, 0.0
	for i, rate := range rates {
		if rate == 0 {
			continue
		}
		if !in.liquids[i].X.Given() || base <= 0 {
			return
		}
		total += rate * after
		tongue += rate * after * float64(axle.Sub(in.liquids[i].X)) / base
	}
	b.c.Weight = CardWeight{units.Duration(after), until, units.Mass(total), units.Mass(tongue)}
}

// heldFor is held for the mode of a state.
func (in *waterIn) heldFor(tank int, s State) float64 {
	return in.held(tank, int(s.v[AxisMode])-1)
}

func (b *cardBuilder) shut() {
	s := b.s
	contents := contentsOf(s)
	for i := range s.Crossovers {
		if c := &s.Crossovers[i]; !openIn(c, b.mode) && contents[c.From] != contents[c.To] {
			b.c.Shut = append(b.c.Shut, CardShut{Path("crossovers[" + c.ID + "]"), "it would join " + contents[c.From] + " water and " + contents[c.To] + " water; what has been mixed is not clean again until it is flushed and disinfected"})
		}
	}
	for i := range s.Tanks {
		if t := &s.Tanks[i]; t.Dump.Bore != 0 || t.DumpValve != "" {
			b.c.Shut = append(b.c.Shut, CardShut{Path("tanks[" + t.ID + "]"), "opened, it spills the tank"})
		}
	}
	for i := range s.Lines {
		if l := &s.Lines[i]; !b.gun(l.ID) && slices.Contains(b.run.pumps, l.Pump) {
			b.c.Shut = append(b.c.Shut, CardShut{Path("lines[" + l.ID + "]"), "its gun is live in this mode and nobody holds it: lock its trigger and stow it"})
		}
	}
}

func (b *cardBuilder) pumpsOf(guns []string) []string {
	var out []string
	for i := range b.s.Lines {
		if l := &b.s.Lines[i]; slices.Contains(guns, l.ID) && !slices.Contains(out, l.Pump) {
			out = append(out, l.Pump)
		}
	}
	return out
}

// trapped lists the sections that can hold pressure when everything is off, of
// the pumps, lines and units that a mode uses.
func (b *cardBuilder) trapped() {
	s := b.s
	used := b.run.pumps // one that turns without an open gun makes pressure as well
	// What was shut in is what the pump made last, at most the most it ever makes.
	closed := func(pump string) units.Pressure {
		most := 0.0
		for x := range b.r.All(mPumpPressure.at(pump)) {
			if x.State.Reach() != Fault {
				most = math.Max(most, x.Value.SI())
			}
		}
		for i := range s.Pumps {
			if p := &s.Pumps[i]; p.ID == pump && p.Unloader.Type == "trapped-pressure" {
				most = math.Max(most, float64(p.Unloader.Setting)) // the line keeps it while the pump runs unloaded
			}
		}
		return units.Pressure(most)
	}
	// With its heater on, hot metal goes on warming what is shut in: coil and hoses are one
	// volume, which nothing shuts off from the guns.
	shut := func(pump string) (units.Pressure, bool) {
		most, hot := closed(pump), false
		for k := range s.Heaters {
			if h := &s.Heaters[k]; h.Pump == pump && slices.Contains(b.run.heaters, h.ID) {
				hot = true
				if x, ok := b.r.Worst(mSoakPressure.at(h.ID)); ok {
					most = max(most, units.Pressure(x.Value.SI()))
				}
			}
		}
		return most, hot
	}
	const squeeze = "pump off, squeeze its gun until nothing comes out"
	for i := range s.Pumps {
		p := &s.Pumps[i]
		if !slices.Contains(used, p.ID) {
			continue
		}
		if p.Unloader.Type == "trapped-pressure" {
			b.c.Trapped = append(b.c.Trapped, CardTrapped{Path("pumps[" + p.ID + "]"), "from the trapped-pressure unloader to every gun of pump " + p.ID, closed(p.ID), "squeeze every gun of the pump: it holds with the trigger released and the engine off"})
		}
		for k := range s.Heaters {
			if h := &s.Heaters[k]; h.Pump == p.ID {
				most, hot := shut(p.ID)
				how := "run cold first, then squeeze a gun: hot metal goes on warming shut-in water"
				if !hot {
					how = "pump off, squeeze a gun until nothing comes out"
				}
				b.c.Trapped = append(b.c.Trapped, CardTrapped{Path("heaters[" + h.ID + "]"), "coil of " + names([]Path{Path("heaters[" + h.ID + "]")}) + ", shut in between pump and guns", most, how})
			}
		}
	}
	for i := range s.Lines {
		l := &s.Lines[i]
		if !slices.Contains(used, l.Pump) {
			continue
		}
		most, _ := shut(l.Pump)
		b.c.Trapped = append(b.c.Trapped, CardTrapped{Path("lines[" + l.ID + "]"), "hose of line " + l.ID + ", to the gun", most, squeeze})
		for _, e := range l.Elements {
			if e.Sort == "check-valve" {
				b.c.Trapped = append(b.c.Trapped, CardTrapped{Path("lines[" + l.ID + "]"), "line " + l.ID + " behind check valve " + e.ID, most, squeeze + "; nothing before the valve lets it out"})
			}
		}
	}
	for i := range s.Recovery {
		if u := &s.Recovery[i]; u.motorsIn(b.mode) > 0 && u.Discharge.CheckValve == "yes" {
			b.c.Trapped = append(b.c.Trapped, CardTrapped{Path("recovery[" + u.ID + "]"), "discharge of recovery unit " + u.ID + " behind its check valve, filters included", 0, "dump pump off, let it drain at the hose end before a filter is opened"})
		}
	}
	for _, id := range b.sprays {
		for i := range s.Chemicals {
			if c := &s.Chemicals[i]; c.ID == id && c.ChemicalPump.given() {
				b.c.Trapped = append(b.c.Trapped, CardTrapped{Path("chemicals[" + id + "]"), "hose of chemical pump " + id + ", held by its pressure switch", c.ChemicalPump.CutOut, "switch it off, open its nozzle over its own can until nothing comes out"})
			}
		}
	}
}

func (b *cardBuilder) protect() {
	add := func(against, wear, why string) {
		b.c.Protect = append(b.c.Protect, CardProtection{against, wear, why})
	}
	if _, purge := b.gunsAtStart(); len(purge) > 0 {
		add("the jet", "eye and face protection, gloves, boots and trousers that the jet does not cut; never point it at anybody", "a jet puts water under the skin")
	}
	for _, h := range b.run.heaters {
		add("hot water and steam", "long waterproof gloves and sleeves", names([]Path{Path("heaters[" + h + "]")})+" is on in this mode")
	}
	for _, id := range b.sprays {
		for i := range b.s.Chemicals {
			if c := &b.s.Chemicals[i]; c.ID == id {
				b.protectFrom(c, add)
			}
		}
	}
	for _, w := range b.c.Water {
		if w.Mist && foulness[w.Becomes] > 0 {
			add("the mist of "+w.Becomes+" water", "respirator for mist, closed eye protection; keep everybody else out of the mist", "tank "+w.Tank+" feeds guns of this mode")
		}
	}
	if x, ok := b.r.At(mSoundLevel.Path, b.at); ok && x.Value.SI() >= actionLevel {
		add("noise", "hearing protection", "sound level at the operator "+x.Text(units.US, 3)+" dB(A)")
	}
}

// protectFrom adds what is worn against one chemical.
func (b *cardBuilder) protectFrom(c *Chemical, add func(against, wear, why string)) {
	name := c.ID + " (" + c.Family + ")"
	switch c.Family {
	case "detergent":
		add(name, "eye protection and gloves", "its safety data sheet decides")
	case "solvent":
		add(name, "eye protection, gloves that it does not dissolve, respirator for organic vapour; no flame, no heat", "its safety data sheet decides")
	default:
		wear := "closed eye protection and face shield, gloves and suit that it does not eat"
		if c.Mist != "no" {
			wear += "; respirator with the cartridge its sheet names; stand upwind, nobody downwind, never in an enclosed place"
		}
		add(name, wear, "its safety data sheet decides")
	}
}

// start is the order of switching on.
func (b *cardBuilder) start() error {
	step := func(do Action, parts ...Path) *CardStep {
		b.c.Start = append(b.c.Start, CardStep{Do: do, Parts: parts})
		return &b.c.Start[len(b.c.Start)-1]
	}
	if len(b.run.engines)+len(b.run.sources)+len(b.run.heaters) > 0 {
		step(DoOpenAir)
	}
	if len(b.c.Valves) > 0 {
		step(DoSetValves)
	}
	if len(b.c.Ends) > 0 {
		step(DoPlaceEnds)
	}
	if len(b.c.Plugs) > 0 {
		step(DoPlugIn)
	}
	var moved []string
	for _, p := range b.c.Plugs {
		if p.Moved {
			moved = append(moved, p.Load)
		}
	}
	if len(moved) > 0 {
		step(DoMovePlug, paths("loads", moved)...)
	}
	if own := b.ownSources(); len(own) > 0 { // before anybody holds a gun
		step(DoStartSource, paths("sources", own)...)
	}
	for _, p := range b.run.pumps {
		step(DoWaterToPump, append([]Path{Path("pumps[" + p + "]")}, b.feedsOf(p)...)...)
	}
	open, purge := b.gunsAtStart()
	if len(open) > 0 {
		step(DoOpenGun, paths("lines", open)...)
	}
	if len(b.run.engines) > 0 {
		step(DoStartEngine, paths("engines", b.run.engines)...)
	}
	if other := b.drivenElsewhere(); len(other) > 0 {
		step(DoStartPump, paths("pumps", other)...)
	}
	if len(purge) > 0 {
		step(DoPurge, paths("lines", purge)...)
		if idle := purge[len(b.c.Guns):]; len(idle) > 0 {
			step(DoStowGun, paths("lines", idle)...)
		}
	}
	orders, err := b.m.StartOrders(b.at, append([]string{}, b.run.loads...))
	if err != nil {
		return err
	}
	var late []CardStep // burners, which nothing starts before they are switched on
	for _, o := range orders {
		for _, st := range o.Steps {
			do := DoSwitchOn
			if !st.ByHand {
				do = DoExpect
			}
			if do == DoExpect && len(b.run.heaters) == 0 && b.burners(st.Loads) {
				continue // its switch stays off with its heater
			}
			x := CardStep{Do: do, Parts: paths("loads", st.Loads), Source: o.Source, Value: st.Peak.Quantity()}
			if do == DoExpect && b.burnersOnly(st.Loads) {
				late = append(late, x)
				continue
			}
			b.c.Start = append(b.c.Start, x)
		}
	}
	for _, h := range b.run.heaters {
		x := step(DoBurnerOn, Path("heaters["+h+"]"))
		for i := range b.s.Heaters {
			if b.s.Heaters[i].ID == h && b.s.Heaters[i].Thermostat.Given() {
				x.Value = b.s.Heaters[i].Thermostat.Quantity()
			}
		}
	}
	b.c.Start = append(b.c.Start, late...)
	if len(b.sprays) > 0 {
		var metered, pumped []string
		for _, id := range b.sprays {
			own := slices.ContainsFunc(b.s.Chemicals, func(c Chemical) bool { return c.ID == id && c.ChemicalPump.given() })
			if own {
				pumped = append(pumped, id)
			} else {
				metered = append(metered, id)
			}
		}
		if len(metered) > 0 {
			step(DoChemicalOn, paths("chemicals", metered)...)
		}
		if len(pumped) > 0 {
			step(DoChemicalPump, paths("chemicals", pumped)...)
		}
	}
	return nil
}

// ownSources are the sources of the mode that have an engine of their own, or none.
func (b *cardBuilder) ownSources() []string {
	var out []string
	for i := range b.s.Sources {
		if g := &b.s.Sources[i]; g.Engine == "" && b.run.source(g.ID) {
			out = append(out, g.ID)
		}
	}
	return out
}

// feedsOf are the tank and the supplies that a pump draws from.
func (b *cardBuilder) feedsOf(pump string) []Path {
	var out []Path
	for i := range b.s.Pumps {
		if p := &b.s.Pumps[i]; p.ID == pump && p.Tank != "" {
			out = append(out, Path("tanks["+p.Tank+"]"))
		}
	}
	for i := range b.s.Supplies {
		if w := &b.s.Supplies[i]; w.Pump == pump {
			out = append(out, Path("supplies["+w.ID+"]"))
		}
	}
	return out
}

// gunsAtStart are the guns that are open while pumps start, one a pump that turns, and
// those that let the air out. A pump that turns only because its engine drives
// something else starts with one of its guns open too, although the mode sprays nothing
// with it.
func (b *cardBuilder) gunsAtStart() (open, purge []string) {
	purge = slices.Clone(b.c.Guns)
	for _, pump := range b.run.pumps {
		one, mine := "", false
		for i := range b.s.Lines {
			l := &b.s.Lines[i]
			if l.Pump != pump || mine {
				continue
			}
			if mine = b.gun(l.ID); mine || one == "" {
				one = l.ID
			}
		}
		if one != "" {
			open = append(open, one)
			if !mine {
				purge = append(purge, one)
			}
		}
	}
	return open, purge
}

// burnersOnly reports whether loads are all burners of heaters that this mode fires.
func (b *cardBuilder) burnersOnly(ids []string) bool {
	return len(b.run.heaters) > 0 && b.burners(ids)
}

// burners reports whether loads are all burners.
func (b *cardBuilder) burners(ids []string) bool {
	for _, id := range ids {
		for i := range b.s.Loads {
			if l := &b.s.Loads[i]; l.ID == id && l.Class != "burner" {
				return false
			}
		}
	}
	return true
}

// drivenElsewhere are the pumps of the mode's guns that no engine of the rig drives:
// they are started and stopped by themselves.
func (b *cardBuilder) drivenElsewhere() []string {
	var out []string
	for i := range b.s.Pumps {
		if p := &b.s.Pumps[i]; p.Engine == "" && slices.Contains(b.pumpsOf(b.c.Guns), p.ID) {
			out = append(out, p.ID)
		}
	}
	return out
}

// stop is the order of shutting down, with the release of the pressure in its
// place: nothing is opened before it.
func (b *cardBuilder) stop() {
	step := func(do Action, parts ...Path) *CardStep {
		b.c.Stop = append(b.c.Stop, CardStep{Do: do, Parts: parts})
		return &b.c.Stop[len(b.c.Stop)-1]
	}
	if len(b.run.heaters) > 0 {
		step(DoBurnerOff, paths("heaters", b.run.heaters)...)
	}
	if len(b.sprays) > 0 {
		step(DoRinse, paths("chemicals", b.sprays)...)
	}
	for _, h := range b.run.heaters {
		x := step(DoRunCold, Path("heaters["+h+"]"))
		if r, ok := b.r.Worst(mRunCold.at(h)); ok {
			x.Value = r.Value
		} else {
			x.Value = SafeToTouch()
		}
	}
	var hand []string
	for _, p := range b.c.Plugs {
		if p.ByHand {
			hand = append(hand, p.Load)
		}
	}
	for i := range b.s.Recovery {
		if u := &b.s.Recovery[i]; u.motorsIn(b.mode) > 0 {
			step(DoRecoverRest, Path("recovery["+u.ID+"]"))
		}
	}
	slices.Reverse(hand)
	var rest []string
	for _, p := range b.c.Plugs {
		if !p.ByHand {
			rest = append(rest, p.Load)
		}
	}
	if len(hand)+len(rest) > 0 {
		step(DoSwitchOff, paths("loads", append(hand, rest...))...)
	}
	if len(b.run.engines) > 0 {
		step(DoStopEngine, paths("engines", b.run.engines)...)
	}
	if other := b.drivenElsewhere(); len(other) > 0 {
		step(DoStopPump, paths("pumps", other)...)
	}
	var feeds []Path // pressure of the main goes on through the gun until they are shut
	for i := range b.s.Supplies {
		if w := &b.s.Supplies[i]; slices.Contains(b.run.pumps, w.Pump) {
			feeds = append(feeds, Path("supplies["+w.ID+"]"))
		}
	}
	if len(feeds) > 0 {
		step(DoShutFeed, feeds...)
	}
	// Every gun of a pump is behind the same pressure, not the open ones alone.
	var live []string
	for i := range b.s.Lines {
		if slices.Contains(b.run.pumps, b.s.Lines[i].Pump) {
			live = append(live, b.s.Lines[i].ID)
		}
	}
	if len(live) > 0 {
		step(DoSqueeze, paths("lines", live)...)
	}
	if len(b.c.Trapped) > 0 {
		step(DoOnlyThen)
	}
	if own := b.ownSources(); len(own) > 0 {
		step(DoStopSource, paths("sources", own)...)
	}
	if len(b.s.Crossovers)+len(b.s.HoseEnds) > 0 {
		step(DoShutAndStow)
	}
}

// paths makes the paths of elements of one list.
func paths(list string, ids []string) []Path {
	out := make([]Path, len(ids))
	for i, id := range ids {
		out[i] = Path(list + "[" + id + "]")
	}
	return out
}

// names says the components of paths: line left, line right.
func names(list []Path) string {
	var out []string
	for i := 0; i < len(list); i++ {
		p := list[i]
		if of, part, ok := partOf(p); ok {
			parts := []string{part} // all of one component
			for i+1 < len(list) {
				next, part, ok := partOf(list[i+1])
				if !ok || next != of {
					break
				}
				parts = append(parts, part)
				i++
			}
			out = append(out, andOf(parts)+" of "+names([]Path{of}))
			continue
		}
		kind, id, ok := strings.Cut(strings.TrimSuffix(string(p), "]"), "[")
		if !ok {
			out = append(out, strings.ReplaceAll(string(p), "_", " "))
			continue
		}
		word := strings.TrimSuffix(strings.ReplaceAll(kind, "_", " "), "s")
		switch {
		case kind == "batteries":
			word = "battery"
		case kind == "supplies":
			word = "supply"
		}
		if word == id {
			out = append(out, "the "+id)
			continue
		}
		out = append(out, word+" "+id)
	}
	return strings.Join(out, ", ")
}

// andOf joins words with commas and an and.
func andOf(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// partOf takes the path of a part of a component apart: the component, and what the part
// is called. A component itself is none.
func partOf(p Path) (of Path, part string, ok bool) {
	head, rest, ok := strings.Cut(string(p), "].")
	if !ok {
		return "", "", false
	}
	switch {
	case rest == "suction":
		part = "suction line"
	case rest == "suction.strainer":
		part = "strainer"
	case rest == "discharge":
		part = "return hose"
	case strings.HasPrefix(rest, "filters["):
		part = "filter " + strings.TrimSuffix(strings.TrimPrefix(rest, "filters["), "]")
	default:
		part = strings.ReplaceAll(rest, "_", " ")
	}
	return Path(head + "]"), part, true
}
