package rig

import (
	"math"
	"slices"

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

// A faultNumber is one number: of a row, in a state.
type faultNumber struct {
	row, state int
	value      float64
}

// faultRows collects numbers in the order in which they come.
type faultRows struct {
	rows   []numberRow
	states []State
	list   []faultNumber
	worn   pumpIn
	work   recoveryWork
	guns   gunStates
	dump   vacuum.FittedDump
}

func (f *faultRows) put(m *Metric, part string, s State, v float64) {
	if math.IsNaN(v) {
		return
	}
	x := faultNumber{value: v}
	if n := len(f.list); n > 0 {
		x.state = f.list[n-1].state // most numbers follow one of the same state
	}
	if n := len(f.states); n == 0 || f.states[x.state] != s {
		if x.state = slices.Index(f.states, s); x.state < 0 {
			x.state = n
			f.states = append(f.states, s)
		}
	}
	for x.row < len(f.rows) && (f.rows[x.row].metric != m || f.rows[x.row].part != part) {
		x.row++
	}
	if x.row == len(f.rows) {
		f.rows = append(f.rows, numberRow{m, part})
	}
	f.list = append(f.list, x)
}

// numbers makes one block of what was collected.
func (f *faultRows) numbers(in *faultIn) []*numbers {
	if len(f.list) == 0 {
		return nil
	}
	n := in.newNumbers(append(in.room(len(f.states)), f.states...))
	for _, r := range f.rows {
		n.row(r.metric, r.part)
	}
	for _, x := range f.list {
		n.value[x.row*len(f.states)+x.state] = x.value
	}
	return in.out(n)
}

// solveFault returns the numbers of the single faults.
func solveFault(in *faultIn) ([]*numbers, error) {
	out := scratch[faultRows](in.w)
	out.rows, out.states, out.list = out.rows[:0], out.states[:0], out.list[:0]
	for _, solve := range [...]func(*faultRows) error{in.pumps, in.shafts, in.heat, in.pickUp} {
		if err := solve(out); err != nil {
			return nil, err
		}
	}
	return out.numbers(in), nil
}

// A faultPump is one pump whose faults are solved.
type faultPump struct {
	in    *faultIn
	l     *linesIn
	p     *pumpIn
	heat  int
	lines *numbers // as everything works
	out   *faultRows
}

// pumps solves the lines with a valve shut for good, a tip blocked and all worn.
//
// A shut valve is met with no gun, each gun alone and every gun of its pump:
// opening a gun never raises the pressure, so the least rating is passed with no
// gun open or not at all, and a gun has the most pressure when it is alone. A
// blocked tip is a gun that is closed although its trigger is held, so that the
// others have what they have without it; it is met with every gun held, and the
// tip blocked that leaves the most pressure. Worn tips are met with every gun.
//
// Where a valve passes nothing as everything works, the lines are the same with it
// shut; these states, and those of a blocked tip, are taken from the block of the
// lines.
func (in *faultIn) pumps(out *faultRows) error {
	f := faultPump{in: in, l: &in.lines.in, out: out}
	if f.l.hasHeat {
		f.heat = heatSteady
	}
	lines, err := in.lines.within(in.w)
	if err != nil || len(lines) == 0 {
		return err
	}
	f.lines = lines[0]
	for i := range f.l.pumps {
		if f.p = &f.l.pumps[i]; len(f.p.lines) == 0 {
			continue
		}
		if err := f.solve(); err != nil {
			return units.At("pumps["+f.p.id+"]", err)
		}
	}
	return nil
}

func (f *faultPump) solve() error {
	p, full := f.p, 1<<len(f.p.lines)-1
	if p.unloader != 0 {
		q := *p
		q.valve, q.unloader = hydraulics.Unloader{}, 0
		if err := f.shut(faultUnloader, mBypass, &q); err != nil {
			return err
		}
	}
	if p.relief != 0 {
		q := *p
		q.last, q.relief = hydraulics.Relief{}, 0
		if err := f.shut(faultRelief, mReliefFlow, &q); err != nil {
			return err
		}
	}
	if s, ok := f.in.state(f.state(full), faultBlocked); ok {
		most, worst, open := math.Inf(-1), -1, 0
		for k := range p.lines {
			set := full &^ (1 << k)
			at := slices.Index(f.lines.states, f.state(set))
			switch v := f.value(mPumpPressure, p.id, at); {
			case !math.IsNaN(f.value(mDeadHead, p.id, at)):
				most, worst, open = math.Inf(1), at, set
			case worst < 0 || v > most || math.IsNaN(most):
				most, worst, open = v, at, set
			}
		}
		f.copy(s, worst, open)
	}
	if s, ok := f.in.state(f.state(full), faultWorn); ok {
		worn, err := wornPump(p, &f.out.worn)
		if err != nil {
			return err
		}
		return f.write(s, worn, full)
	}
	return nil
}

// state is the state of the lines with a set of the pump's guns open.
func (f *faultPump) state(set int) State {
	guns := 0
	for k := range f.p.lines {
		if set&(1<<k) != 0 {
			guns |= 1 << f.p.lines[k].bit
		}
	}
	s := State{set: f.in.axes}.with(AxisGuns, guns+1)
	if f.heat != 0 {
		s = s.with(AxisHeat, f.heat)
	}
	return s
}

// value is a number of the lines as everything works; NaN where there is none.
func (f *faultPump) value(m *Metric, part string, at int) float64 {
	if row := f.lines.of(m, part); row != nil && at >= 0 {
		return row[at]
	}
	return math.NaN()
}

// shut writes the states of a valve that stays shut; q is the pump without it, and
// passes the metric of what it lets through as everything works.
func (f *faultPump) shut(fault string, passes *Metric, q *pumpIn) error {
	n := len(f.p.lines)
	for i := range n + 2 { // none, each alone, all
		set := 0
		switch {
		case i == n+1 && n == 1:
			continue
		case i == n+1:
			set = 1<<n - 1
		case i > 0:
			set = 1 << (i - 1)
		}
		s, ok := f.in.state(f.state(set), fault)
		if !ok {
			return nil
		}
		if at := slices.Index(f.lines.states, f.state(set)); f.value(passes, f.p.id, at) == 0 {
			f.copy(s, at, set)
			continue
		}
		if err := f.write(s, q, set); err != nil {
			return err
		}
	}
	return nil
}

// write solves a pump with a set of its guns open, and writes what comes of it.
func (f *faultPump) write(s State, q *pumpIn, set int) error {
	r, err := solveOne(f.l, q, f.in.bench(), set, f.heat, &solved{}, nil)
	if err != nil {
		return err
	}
	if r.deadHead != 0 {
		f.out.put(mFaultDeadHead, q.id, s, float64(r.deadHead))
	}
	if !r.ok {
		return nil
	}
	f.out.put(mFaultPressure, q.id, s, float64(r.pressure))
	f.out.put(mFaultRelief, q.id, s, float64(r.relief))
	f.out.put(mFaultShaft, q.id, s, float64(r.shaft))
	for k := range q.lines {
		if set&(1<<k) != 0 {
			f.out.put(mFaultNozzle, q.lines[k].id, s, float64(r.nozzle[k]))
			f.out.put(mFaultReaction, q.lines[k].id, s, float64(r.force[k]))
		}
	}
	return nil
}

// copy writes what a state of the lines has as everything works.
func (f *faultPump) copy(s State, at, set int) {
	for _, m := range [...][2]*Metric{{mFaultDeadHead, mDeadHead}, {mFaultPressure, mPumpPressure}, {mFaultRelief, mReliefFlow}, {mFaultShaft, mPumpShaft}} {
		f.out.put(m[0], f.p.id, s, f.value(m[1], f.p.id, at))
	}
	for k := range f.p.lines {
		if id := f.p.lines[k].id; set&(1<<k) != 0 {
			f.out.put(mFaultNozzle, id, s, f.value(mNozzlePressure, id, at))
			f.out.put(mFaultReaction, id, s, f.value(mReaction, id, at))
		}
	}
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
			most := in.floats(len(in.axes.names[AxisFault]))
			for _, x := range out.list {
				if out.rows[x.row] == (numberRow{mFaultShaft, id}) {
					at := &most[out.states[x.state].v[AxisFault]]
					*at = math.Max(*at, x.value)
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
	g, ok := out.guns.of(lines, in.axes)
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
		t, err := x.heater.Fault(in.burner.in.water, x.feed.Line, thermal.Controls{Thermostat: f.thermostat, HighLimit: f.high, HighLimitDelay: f.thermostat.StopDelay, FlowSwitchDelay: f.thermostat.StopDelay},
			thermal.Fault{Name: "flow switch", FlowSwitch: true})
		if outside(err) {
			continue
		}
		if err != nil {
			return err
		}
		if !t.Unbounded {
			out.put(mFaultHot, f.id, s, t.Highest.Kelvin())
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

// back writes the back flow past an open check valve, through the standing dump pump,
// at the deepest vacuum of each number of motors: more vacuum never draws less back.
func (in *faultIn) back(u *recoveryUnit, n *numbers, held []float64, out *faultRows) error {
	water, err := vacuum.Water(u.warm)
	if err != nil {
		return err
	}
	d, _, err := u.layDump(&out.work, water)
	if err != nil {
		return err
	}
	d.CheckValve, d.Cracking, d.Running = false, 0, 0
	if err := out.dump.Refit(d); err != nil {
		return err
	}
	for m := range in.axes.names[AxisMotors] {
		k := -1 // where these motors hold the deepest vacuum
		for i, s := range n.states {
			if int(s.v[AxisMotors]) == m && held[i] == held[i] && (k < 0 || held[i] > held[k]) {
				k = i
			}
		}
		if k < 0 {
			continue
		}
		q, err := out.dump.BackFlow(units.Pressure(math.Max(held[k], 0)))
		if err != nil {
			return err
		}
		if s, ok := in.state(State{set: in.axes}.with(AxisMotors, m), faultCheckValve); ok {
			out.put(mFaultBack, u.id, s, float64(q))
		}
	}
	return nil
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
