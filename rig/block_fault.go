package rig

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// The single faults, by their names on AxisFault. A rig has those of the parts it
// has. The thermostat that sticks on is heat=stuck as well, where the block of the
// lines solves what it does to pressures.
const (
	faultUnloader   = "unloader-shut"    // it no longer opens
	faultRelief     = "relief-shut"      // it no longer opens
	faultBlocked    = "tip-blocked"      // nothing passes one of the open guns
	faultWorn       = "tips-worn"        // every tip at its limit of replacement
	faultThermostat = "thermostat-stuck" // it never cuts
	faultHighLimit  = "high-limit-dead"  // it never trips
	faultFlowSwitch = "flow-switch-dead" // the burner fires without flow
	faultMotor      = "motor-out"        // one vacuum motor of several stands
	faultCheckValve = "check-valve-open" // the discharge of the dump pump is no longer held
)

// faultAxis adds the single faults that a rig can have.
func faultAxis(s *Spec, a *axisSet) {
	add := func(name string, has bool) {
		if has {
			a.add(AxisFault, name, Fault)
		}
	}
	some := func(n int, of func(int) bool) bool {
		for i := range n {
			if of(i) {
				return true
			}
		}
		return false
	}
	if len(s.Lines) > 0 {
		add(faultUnloader, some(len(s.Pumps), func(i int) bool { return s.Pumps[i].Unloader.Setting != 0 }))
		add(faultRelief, some(len(s.Pumps), func(i int) bool { return s.Pumps[i].Relief.Setting != 0 }))
		add(faultBlocked, true)
		add(faultWorn, true)
		add(faultThermostat, some(len(s.Heaters), func(i int) bool { return s.Heaters[i].Thermostat.Given() }))
		add(faultHighLimit, some(len(s.Heaters), func(i int) bool { return s.Heaters[i].HighLimit.Given() }))
		add(faultFlowSwitch, some(len(s.Heaters), func(i int) bool { return s.Heaters[i].FlowSwitch == "yes" }))
	}
	add(faultMotor, some(len(s.Recovery), func(i int) bool { return s.Recovery[i].motorCount() > 1 }))
	add(faultCheckValve, some(len(s.Recovery), func(i int) bool { return s.Recovery[i].Discharge.CheckValve == "yes" }))
}

// faultIn is what the single faults depend on beyond the blocks they start from.
type faultIn struct {
	work
	axes     *axisSet
	lines    *block[linesIn]
	engines  *block[enginesIn]
	burner   *block[burnerIn]
	recovery *block[recoveryIn]
	hours    []hour
}

func (m *Model) faultInput(b *blocks) faultIn {
	return faultIn{axes: m.axes, lines: b.lines, engines: b.engines, burner: b.burner, recovery: b.recovery, hours: m.hours()}
}

// state returns a state with a fault; ok is false where the rig cannot have it.
func (in *faultIn) state(s State, fault string) (State, bool) {
	for i, n := range in.axes.names[AxisFault] {
		if i > 0 && n == fault {
			s.set = in.axes
			return s.with(AxisFault, i), true
		}
	}
	return s, false
}

// A faultNumber is one number of a component in a state.
type faultNumber struct {
	metric *Metric
	part   string
	state  State
	value  float64
}

// faultRows collects numbers in the order in which they come.
type faultRows struct{ list []faultNumber }

func (f *faultRows) put(m *Metric, part string, s State, v float64) {
	if !math.IsNaN(v) {
		f.list = append(f.list, faultNumber{m, part, s, v})
	}
}

// numbers makes rows and states of what was collected.
func (f *faultRows) numbers(in *faultIn) []*numbers {
	if len(f.list) == 0 {
		return nil
	}
	states := in.room(len(f.list))
	at := func(s State) int {
		for k := range states {
			if states[k] == s {
				return k
			}
		}
		return -1
	}
	for i := range f.list {
		if x := &f.list[i]; at(x.state) < 0 {
			states = append(states, x.state)
		}
	}
	n := in.newNumbers(states)
	for i := range f.list {
		x := &f.list[i]
		row := n.of(x.metric, x.part)
		if row == nil {
			row = n.row(x.metric, x.part)
		}
		row[at(x.state)] = x.value
	}
	return []*numbers{n}
}

// solveFault returns the numbers of the single faults.
func solveFault(in *faultIn) ([]*numbers, error) {
	out := &faultRows{list: make([]faultNumber, 0, 128)}
	for _, err := range [...]error{in.pumps(out), in.shafts(out), in.heat(out), in.pickUp(out)} {
		if err != nil {
			return nil, err
		}
	}
	return out.numbers(in), nil
}

// pumps solves the lines with a valve shut for good, a tip blocked and all worn.
//
// A shut valve is met with no gun, each gun alone and every gun of its pump:
// opening a gun never raises the pressure, so the least rating is passed with no
// gun open or not at all, and a gun has the most pressure when it is alone. A
// blocked tip is a gun that is closed although its trigger is held, so that the
// others have what they have without it; it is met with every gun held, and the
// tip blocked that leaves the most pressure. Worn tips are met with every gun.
func (in *faultIn) pumps(out *faultRows) error {
	l := &in.lines.in
	heat := 0
	if l.hasHeat {
		heat = heatSteady
	}
	on := in.bench()
	for i := range l.pumps {
		p := &l.pumps[i]
		if len(p.lines) == 0 {
			continue
		}
		full := 1<<len(p.lines) - 1
		all, err := solveOne(l, p, on, full, heat, &solved{}, nil)
		if err != nil {
			return units.At("pumps["+p.id+"]", err)
		}
		state := func(set int) State {
			guns := 0
			for k := range p.lines {
				if set&(1<<k) != 0 {
					guns |= 1 << p.lines[k].bit
				}
			}
			s := State{set: in.axes}.with(AxisGuns, guns+1)
			if heat != 0 {
				s = s.with(AxisHeat, heat)
			}
			return s
		}
		write := func(s State, r *solved, open int) {
			if r.deadHead != 0 {
				out.put(mFaultDeadHead, p.id, s, float64(r.deadHead))
			}
			if !r.ok {
				return
			}
			out.put(mFaultPressure, p.id, s, float64(r.pressure))
			out.put(mFaultRelief, p.id, s, float64(r.relief))
			out.put(mFaultShaft, p.id, s, float64(r.shaft))
			for k := range p.lines {
				if open&(1<<k) != 0 {
					out.put(mFaultNozzle, p.lines[k].id, s, float64(r.nozzle[k]))
					out.put(mFaultReaction, p.lines[k].id, s, float64(r.force[k]))
				}
			}
		}
		shut := func(fault string, of func(*pumpIn)) error {
			if _, ok := in.state(state(0), fault); !ok {
				return nil
			}
			q := *p
			of(&q)
			sets := []int{0}
			for k := range p.lines {
				sets = append(sets, 1<<k)
			}
			if len(p.lines) > 1 {
				sets = append(sets, full)
			}
			for _, set := range sets {
				r, err := solveOne(l, &q, on, set, heat, &all, nil)
				if err != nil {
					return units.At("pumps["+p.id+"]", err)
				}
				s, _ := in.state(state(set), fault)
				write(s, &r, set)
			}
			return nil
		}
		if p.unloader != 0 {
			if err := shut(faultUnloader, func(q *pumpIn) { q.valve, q.unloader = hydraulics.Unloader{}, 0 }); err != nil {
				return err
			}
		}
		if p.relief != 0 {
			if err := shut(faultRelief, func(q *pumpIn) { q.last, q.relief = hydraulics.Relief{}, 0 }); err != nil {
				return err
			}
		}
		if s, ok := in.state(state(full), faultBlocked); ok {
			var most solved
			open := 0
			for k := range p.lines {
				r, err := solveOne(l, p, on, full&^(1<<k), heat, &all, nil)
				if err != nil {
					return units.At("pumps["+p.id+"]", err)
				}
				if r.deadHead != 0 || !most.ok && most.deadHead == 0 || r.ok && r.pressure > most.pressure {
					most, open = r, full&^(1<<k)
				}
			}
			write(s, &most, open)
		}
		if s, ok := in.state(state(full), faultWorn); ok {
			worn, err := wornPump(p)
			if err != nil {
				return err
			}
			r, err := solveOne(l, worn, on, full, heat, &all, nil)
			if err != nil {
				return units.At("pumps["+p.id+"]", err)
			}
			write(s, &r, full)
		}
	}
	return nil
}

// shafts adds what the greatest power of a pump in a fault asks of its engine: the
// rest of the shaft as it is with every gun closed.
func (in *faultIn) shafts(out *faultRows) error {
	if len(in.engines.in.engines) == 0 {
		return nil
	}
	engines, err := in.engines.within(in.w)
	if err != nil || len(engines) == 0 {
		return err
	}
	lines, err := in.lines.within(in.w)
	if err != nil || len(lines) == 0 {
		return err
	}
	for i := range in.engines.in.engines {
		e := &in.engines.in.engines[i]
		demand := engines[0].of(mEngineDemand, e.id)
		if demand == nil {
			continue
		}
		for _, id := range e.pumps {
			shaft := lines[0].of(mPumpShaft, id)
			if shaft == nil {
				continue
			}
			usual := math.NaN()
			for k, s := range lines[0].states {
				if s.v[AxisGuns] == 1 && s.v[AxisHeat] <= heatOff {
					usual = shaft[k]
				}
			}
			if math.IsNaN(usual) {
				continue
			}
			most := make([]float64, len(in.axes.names[AxisFault]))
			for _, x := range out.list {
				if x.metric == mFaultShaft && x.part == id {
					most[x.state.v[AxisFault]] = math.Max(most[x.state.v[AxisFault]], x.value)
				}
			}
			for f, v := range most {
				if v == 0 {
					continue
				}
				for k, s := range engines[0].states {
					if s.v[AxisGuns] != 1 || s.v[AxisHeat] > heatOff || s.v[AxisPlugs] > 1 || math.IsNaN(demand[k]) {
						continue
					}
					t := State{set: in.axes}.with(AxisPlugs, int(s.v[AxisPlugs])).with(AxisSite, int(s.v[AxisSite])).with(AxisFault, f)
					out.put(mFaultDemand, e.id, t, demand[k]-usual+v)
				}
			}
		}
	}
	return nil
}

// heat adds how hot the water gets when one control fails and the others work.
func (in *faultIn) heat(out *faultRows) error {
	burner, err := in.burner.within(in.w)
	if err != nil || len(burner) == 0 {
		return err
	}
	for _, n := range burner {
		for i := range in.burner.in.heaters {
			id := in.burner.in.heaters[i].id
			for _, x := range []struct {
				from  *Metric
				fault string
			}{{mFaultHighest, faultThermostat}, {mCycleHighest, faultHighLimit}} {
				row := n.of(x.from, id)
				for k, s := range n.states {
					if row == nil {
						break
					}
					if t, ok := in.state(State{set: in.axes}.with(AxisGuns, int(s.v[AxisGuns])).with(AxisHeat, heatSteady), x.fault); ok {
						out.put(mFaultHot, id, t, row[k])
					}
				}
			}
		}
	}
	lines, err := in.lines.within(in.w)
	if err != nil {
		return err
	}
	g, ok := gunStatesOf(lines, in.axes)
	if !ok {
		return nil
	}
	for i := range in.burner.in.heaters {
		f := &in.burner.in.heaters[i]
		s, ok := in.state(State{set: in.axes}.with(AxisGuns, 1).with(AxisHeat, heatSteady), faultFlowSwitch)
		if !ok {
			continue
		}
		x, err := f.firing(&in.burner.in, g, g.all)
		if err != nil {
			return err
		}
		if !x.ok {
			continue
		}
		t, err := thermal.FaultTable(x.heater, in.burner.in.water, x.feed.Line, thermal.Controls{Thermostat: f.thermostat, HighLimit: f.high, HighLimitDelay: f.thermostat.StopDelay, FlowSwitchDelay: f.thermostat.StopDelay},
			[]thermal.Fault{{Name: "flow switch", FlowSwitch: true}}, nil)
		if outside(err) {
			continue
		}
		if err != nil {
			return err
		}
		if !t[0].Unbounded {
			out.put(mFaultHot, f.id, s, t[0].Highest.Kelvin())
		}
	}
	return nil
}

// pickUp adds what one motor less picks up, and what the drum draws back past a
// check valve that stays open.
func (in *faultIn) pickUp(out *faultRows) error {
	solved, err := in.recovery.within(in.w)
	if err != nil {
		return err
	}
	r := &in.recovery.in
	for i := range r.units {
		u := &r.units[i]
		for _, n := range solved {
			if row := n.of(mPickUp, u.id); row != nil && u.motors > 1 {
				for k, s := range n.states {
					if int(s.v[AxisMotors]) != u.motors { // index is motors + 1: this is one motor less than all
						continue
					}
					t := s.with(AxisMotors, u.motors+1)
					if t, ok := in.state(t, faultMotor); ok {
						out.put(mFaultPickUp, u.id, t, row[k])
					}
				}
			}
			row := n.of(mDrumVacuum, u.id)
			if row == nil || u.discharge.CheckValve != "yes" || u.discharge.Bore == 0 || !u.warm.Given() {
				continue
			}
			if err := in.back(u, n, row, out); err != nil {
				return err
			}
		}
	}
	return nil
}

// back writes the back flow past an open check valve at the deepest vacuum of each
// number of motors: more vacuum never draws less back.
func (in *faultIn) back(u *recoveryUnit, n *numbers, held []float64, out *faultRows) error {
	deepest := map[uint16]int{}
	for k, s := range n.states {
		if held[k] != held[k] {
			continue
		}
		if old, ok := deepest[s.v[AxisMotors]]; !ok || held[k] > held[old] {
			deepest[s.v[AxisMotors]] = k
		}
	}
	for m := range in.axes.names[AxisMotors] {
		k, ok := deepest[uint16(m)]
		if !ok {
			continue
		}
		q, err := u.drawnBack(units.Pressure(math.Max(held[k], 0)))
		if err != nil {
			return err
		}
		if s, ok := in.state(State{set: in.axes}.with(AxisMotors, m), faultCheckValve); ok {
			out.put(mFaultBack, u.id, s, float64(q))
		}
	}
	return nil
}

// drawnBack is the flow back through the standing dump pump with the check valve
// open.
func (u *recoveryUnit) drawnBack(held units.Pressure) (units.VolumeFlow, error) {
	water, err := vacuum.Water(u.warm)
	if err != nil {
		return 0, err
	}
	d, _, err := u.dump(water)
	if err != nil {
		return 0, err
	}
	d.CheckValve, d.Cracking, d.Running = false, 0, 0
	x, err := d.At(held)
	if err != nil {
		return 0, err
	}
	return max(-x.Flow, 0), nil
}

// A FaultLine is one single fault and what comes of it: the judgements that still
// hold under it and those that do not, the gravest first of each check and
// component.
type FaultLine struct {
	Fault   string
	State   State // the fault alone
	Verdict Severity
	Holds   []Judgement
	Fails   []Judgement
}

// Faults returns the table of single faults: for each fault that the rig can have
// what holds and what does not. Each judgement is the worst of its check and
// component over the states of the fault. A fault that nothing judges has neither.
func (r *Report) Faults() []FaultLine {
	var out []FaultLine
	axes := r.model.axes
	for i, name := range axes.names[AxisFault] {
		if i > 0 {
			out = append(out, FaultLine{Fault: name, State: State{set: axes}.with(AxisFault, i), Verdict: Pass})
		}
	}
	type key struct {
		fault int
		code  Code
		part  string
	}
	worst := map[key]int{}
	list := []Judgement{}
	var order []key
	for j := range r.Judgements() {
		f := int(j.Reading.State.v[AxisFault])
		if f == 0 && j.Reading.State.v[AxisHeat] == heatStuck {
			if s, ok := (&faultIn{axes: axes}).state(State{}, faultThermostat); ok {
				f = int(s.v[AxisFault])
			}
		}
		if f == 0 {
			continue
		}
		k := key{f, j.Code, j.Reading.Part}
		at, had := worst[k]
		switch {
		case !had:
			worst[k], order, list = len(list), append(order, k), append(list, j)
		case j.Severity > list[at].Severity || j.Severity == list[at].Severity && j.Margin < list[at].Margin:
			list[at] = j
		}
	}
	for _, k := range order {
		j, line := list[worst[k]], &out[k.fault-1]
		if j.Severity == Pass {
			line.Holds = append(line.Holds, j)
			continue
		}
		line.Fails = append(line.Fails, j)
		line.Verdict = max(line.Verdict, j.Severity)
	}
	return out
}
