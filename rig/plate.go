package rig

import (
	"errors"
	"slices"
	"strings"

	"example.com/washrig/electrical"
	"example.com/washrig/units"
)

// fromPlate begins the reason of a value that follows from other figures of
// the same plate.
const fromPlate = "computed from its plate: "

// plate returns what the specification knows of a load as its plate. Watts are
// left out where they are computed from it.
func (l *Load) plate() electrical.Plate {
	return electrical.Plate{Name: l.ID, Starts: l.startMode(), Voltage: l.Voltage, Current: l.Current, Input: l.Running, ShaftPower: l.ShaftPower, Efficiency: l.Efficiency,
		PowerFactor: l.PowerFactor, StartPower: l.Starting, MeasuredStart: l.MeasuredStart, LockedRotor: l.LockedRotor, CodeLetter: l.CodeLetter, StartPowerFactor: l.StartPowerFactor}
}

func (l *Load) startMode() electrical.StartMode {
	if l.Starts == "by-hand" {
		return electrical.ByHand
	}
	return electrical.ByItself
}

// tellsPower and tellsStart report whether a plate tells the running and the
// starting watts without their being written.
func (l *Load) tellsPower() bool {
	return (l.ShaftPower != 0 && l.Efficiency != 0) || (l.Voltage != 0 && l.Current != 0 && l.PowerFactor != 0)
}

func (l *Load) tellsStart() bool {
	return (l.Voltage != 0 && (l.MeasuredStart != 0 || l.LockedRotor != 0)) || (l.CodeLetter != "" && l.ShaftPower != 0)
}

// readPlate fills running and starting watts that are not given from the rest
// of the plate. It returns why each was filled, empty if it was not, and
// whether the starting watts are an upper bound. A plate that does not tell, or
// contradicts itself, fills nothing; see senseOfPlate.
func (l *Load) readPlate() (running, starting string, atMost bool) {
	needRun, needStart := l.Running == 0 && l.tellsPower(), l.Starting == 0 && l.tellsStart()
	if !needRun && !needStart {
		return "", "", false
	}
	pl := l.plate()
	if !l.tellsStart() && pl.StartPower == 0 {
		pl.StartPower = 1e6 * units.Watt // only the running side is read
		pl.MeasuredStart, pl.LockedRotor, pl.CodeLetter = 0, 0, ""
	}
	r, err := pl.Load()
	if err != nil {
		return "", "", false
	}
	if needRun {
		l.Running = r.Running
		running = fromPlate + "volts, amperes and power factor"
		if l.ShaftPower != 0 && l.Efficiency != 0 {
			running = fromPlate + "shaft power over efficiency"
		}
	}
	if needStart {
		l.Starting, atMost = r.Starting, r.AtMost
		starting = fromPlate + r.Basis.String()
		if atMost {
			starting += "; its volt-amperes stand for the watts, an upper bound"
		}
	}
	return running, starting, atMost
}

// shoreRunning fills the run rating of a shore cord from its breaker.
func (g *Source) shoreRunning() string {
	if g.Type != "shore" || g.Running != 0 || g.Breaker == 0 || g.Voltage == 0 {
		return ""
	}
	lim, err := electrical.OutletLimits(g.Voltage, g.Breaker, continuousShare)
	if err != nil {
		return ""
	}
	g.Running = lim.Rated
	return fromPlate + "80 % of volts times the breaker (NEC 210.20(A))"
}

// continuousShare is the part of a breaker that may flow for three hours and
// more.
//
// Source: NFPA 70 (NEC) 210.20(A), which counts such loads at 125 %.
const continuousShare = 0.80

// deriveLoads fills what the plates of loads tell. It comes before the usual
// starts, which are for plates that tell nothing.
func (m *Model) deriveLoads() {
	for i := range m.spec.Loads {
		l := &m.spec.Loads[i]
		at := Path("loads[" + l.ID + "]")
		running, starting, atMost := l.readPlate()
		if running != "" {
			m.origins[at+".running"] = Origin{Why: running}
		}
		if starting != "" {
			o := Origin{Why: starting}
			if atMost {
				o.Basis = Assumed
			}
			m.origins[at+".starting"] = o
		}
	}
}

// deriveWiring fills what conductors and windings need and nobody gave: the
// voltage of the sources, power factors by class, the motor of a burner. Only
// what some cord, outlet or winding asks for is filled, each recorded as
// assumed.
func (m *Model) deriveWiring() {
	s := m.spec
	assume := func(p Path, why string) { m.origins[p] = Origin{Basis: Assumed, Why: why} }
	for i := range s.Sources {
		g := &s.Sources[i]
		at := Path("sources[" + g.ID + "]")
		if g.Voltage == 0 && asksVoltage(s, g) {
			g.Voltage = 120 * units.Volt
			assume(at+".voltage", "outlets of a trailer, common practice")
		}
		if why := g.shoreRunning(); why != "" {
			m.origins[at+".running"] = Origin{Why: why}
		}
		if g.Type == "inverter" && g.Battery == "" {
			if g.PerThousandFeet == 0 {
				g.PerThousandFeet = 0.035
				assume(at+".loss_per_1000_ft", "naturally aspirated plate rule, common practice")
			}
			if g.PerTenFahrenheit == 0 {
				g.PerTenFahrenheit = 0.01
				assume(at+".loss_per_10_f", "plate rule above 77 °F, common practice")
			}
		}
		if g.Battery != "" && g.Efficiency == 0 {
			g.Efficiency = 0.88
			assume(at+".efficiency", "battery inverter, common practice")
		}
		if g.Voltage != 0 && g.Frequency == 0 {
			g.Frequency = 60 * units.Hertz
			assume(at+".frequency", "mains frequency where the gauges are American")
		}
		if g.Poles != 0 && (g.Speed != 0 || g.IdleSpeed != 0) && g.RegulatorKnee == 0 {
			g.RegulatorKnee = 0.95
			assume(at+".regulator_knee", "under-frequency roll-off of a regulator, common practice")
		}
	}
	for i := range s.Loads {
		l := &s.Loads[i]
		if l.Running == 0 || !asksApparent(s, l) {
			continue
		}
		f := usualFactors(l.Class)
		at := Path("loads[" + l.ID + "]")
		put := func(field string, to *units.Ratio, b [3]float64, what string) {
			*to = units.Ratio(b[1])
			why := what + " of a " + f.name + ", common practice"
			assume(at+Path(field), why)
			if m.bands == nil {
				m.bands = map[Path]Band{}
			}
			of := func(x float64) units.Quantity { return units.Ratio(x).Quantity() }
			m.bands[at+Path(field)] = Band{of(b[0]), of(b[1]), of(b[2]), why}
		}
		if run, _ := l.apparent(); run == 0 {
			put(".power_factor", &l.PowerFactor, f.running, "power factor")
		}
		if _, start := l.apparent(); start == 0 && l.StartPowerFactor == 0 {
			put(".start_power_factor", &l.StartPowerFactor, f.starting, "power factor at the start")
		}
		if l.Class != "burner" {
			continue
		}
		if l.FanPoles == 0 {
			l.FanPoles = 2
			m.origins[at+".fan_poles"] = Origin{Basis: Assumed, Why: "two-pole motor of a burner, common practice"}
		}
		if l.FanSpeed == 0 {
			l.FanSpeed = usualFanSpeed(s, l)
			assume(at+".fan_speed", usualFan)
		}
		if l.FanBreakdown == 0 {
			l.FanBreakdown = 2
			assume(at+".fan_breakdown", "small single-phase induction motor, common practice")
		}
	}
}

const usualFan = "plate speed of a burner's motor, 3,450 of 3,600 rev/min, common practice"

// usualFanSpeed is the plate speed of a motor with the usual slip at the
// frequency of the source it is plugged into.
func usualFanSpeed(s *Spec, l *Load) units.RotationalSpeed {
	f := 60 * units.Hertz
	for i := range s.Sources {
		if g := &s.Sources[i]; g.ID == l.Source && g.Frequency != 0 {
			f = g.Frequency
		}
	}
	n, err := electrical.GeneratorSpeed(f, l.FanPoles)
	if err != nil {
		return 0 // odd poles, which senseOfWiring refuses
	}
	return n * 3450 / 3600
}

// factors are power factors of a class of load: low, usual, high.
type factors struct {
	name              string
	running, starting [3]float64
}

// usualFactors are what sellers of motors and generators print: common
// practice, without a publication behind it.
func usualFactors(class string) factors {
	switch class {
	case "brush-motor":
		return factors{"brush motor", [3]float64{0.90, 0.95, 1}, [3]float64{0.80, 0.90, 1}}
	case "capacitor-start-motor":
		return factors{"capacitor-start motor", [3]float64{0.55, 0.70, 0.85}, [3]float64{0.60, 0.75, 0.95}}
	case "split-phase-motor":
		return factors{"split-phase motor", [3]float64{0.50, 0.62, 0.75}, [3]float64{0.60, 0.70, 0.85}}
	case "compressor":
		return factors{"compressor motor", [3]float64{0.60, 0.75, 0.90}, [3]float64{0.55, 0.70, 0.90}}
	case "burner":
		return factors{"burner", [3]float64{0.55, 0.70, 0.90}, [3]float64{0.55, 0.70, 0.90}}
	case "resistance":
		return factors{"resistance", [3]float64{1, 1, 1}, [3]float64{1, 1, 1}}
	case "charger":
		return factors{"charger", [3]float64{0.55, 0.65, 1}, [3]float64{0.55, 0.65, 1}}
	}
	return factors{"load of no stated class", [3]float64{0.50, 0.80, 1}, [3]float64{0.50, 0.75, 1}}
}

// apparent returns the running and starting volt-amperes of a load, zero where
// nothing tells them.
func (l *Load) apparent() (running, starting units.ApparentPower) {
	va := func(i units.Current) units.ApparentPower {
		return units.ApparentPower(float64(l.Voltage) * float64(i))
	}
	switch {
	case l.RunningApparent != 0:
		running = l.RunningApparent
	case l.Voltage != 0 && l.Current != 0:
		running = va(l.Current)
	case l.PowerFactor != 0:
		running = units.ApparentPower(float64(l.Running) / float64(l.PowerFactor))
	}
	switch {
	case l.StartingApparent != 0:
		starting = l.StartingApparent
	case l.Voltage != 0 && l.MeasuredStart != 0:
		starting = va(l.MeasuredStart)
	case l.Voltage != 0 && l.LockedRotor != 0:
		starting = va(l.LockedRotor)
	case l.StartPowerFactor != 0:
		starting = units.ApparentPower(float64(l.Starting) / float64(l.StartPowerFactor))
	case l.CodeLetter != "" && l.ShaftPower != 0:
		starting = units.ApparentPower(l.Starting) // what readPlate took as the watts
	}
	return running, starting
}

// electric returns the load as the start plan sees it, behind its soft starter.
// Plates round, so that volt-amperes may come out a little below the watts;
// they count for no less than those.
func (l *Load) electric() electrical.Load {
	e := electrical.Load{Name: l.ID, Running: l.Running, Starting: l.Starting, Starts: l.startMode()}
	if e.Starts == electrical.ByHand {
		e.After = l.After
	}
	if run, start := l.apparent(); run > 0 && start > 0 {
		e.RunningApparent = max(run, units.ApparentPower(l.Running))
		e.StartingApparent = max(start, e.RunningApparent, units.ApparentPower(l.Starting))
	}
	if l.SoftStart != 0 {
		if soft, _, err := e.SoftStarted(l.SoftStart); err == nil { // it is an error only of a load that senseOfPlate refuses
			e = soft
		}
	}
	return e
}

// reaches lists the sources a load may be plugged into.
func (l *Load) reaches(source string) bool {
	return l.Source == source || slices.Contains(l.May, source)
}

// asksVoltage reports whether some number of a source needs its voltage.
func asksVoltage(s *Spec, g *Source) bool {
	if g.TransientReactance != 0 || g.RunningApparent != 0 || g.Poles != 0 || g.Legs == 2 || g.Breaker != 0 {
		return true
	}
	for i := range s.Outlets {
		if s.Outlets[i].Source == g.ID {
			return true
		}
	}
	for i := range s.Cords {
		for k := range s.Loads {
			if s.Loads[k].reaches(g.ID) && slices.Contains(s.Cords[i].Loads, s.Loads[k].ID) {
				return true
			}
		}
	}
	return false
}

// asksApparent reports whether some number needs the volt-amperes of a load.
func asksApparent(s *Spec, l *Load) bool {
	for i := range s.Cords {
		if slices.Contains(s.Cords[i].Loads, l.ID) {
			return true
		}
	}
	for i := range s.Sources {
		g := &s.Sources[i]
		if l.reaches(g.ID) && (g.RunningApparent != 0 || g.StartingApparent != 0 || g.TransientReactance != 0 || g.Legs == 2) {
			return true
		}
	}
	for i := range s.Outlets {
		if l.reaches(s.Outlets[i].Source) {
			return true
		}
	}
	return false
}

// rederive computes anew what followed from the plate of the component that a
// moved value belongs to, as New would.
func (m *Model) rederive(p Path) {
	for i := range m.spec.Loads {
		l := &m.spec.Loads[i]
		at := Path("loads[" + l.ID + "]")
		if !at.covers(p) {
			continue
		}
		for _, f := range []struct {
			p Path
			v *units.Power
		}{{at + ".running", &l.Running}, {at + ".starting", &l.Starting}} {
			if f.p != p && strings.HasPrefix(m.origins[f.p].Why, fromPlate) {
				*f.v = 0
			}
		}
		l.readPlate()
	}
	for i := range m.spec.Loads {
		l := &m.spec.Loads[i]
		if p == Path("sources["+l.Source+"].frequency") && m.origins[Path("loads["+l.ID+"].fan_speed")].Why == usualFan {
			l.FanSpeed = usualFanSpeed(m.spec, l)
		}
	}
	for i := range m.spec.Sources {
		g := &m.spec.Sources[i]
		at := Path("sources[" + g.ID + "]")
		if at.covers(p) && at+".running" != p && strings.HasPrefix(m.origins[at+".running"].Why, fromPlate) {
			g.Running = 0
			g.shoreRunning()
		}
	}
}

// plateFields are the names in the specification of the fields of an
// electrical.Plate.
var plateFields = map[string]string{"input": "running", "startPower": "starting", "shaftPower": "shaft_power", "powerFactor": "power_factor",
	"measuredStart": "measured_start", "lockedRotor": "locked_rotor", "codeLetter": "code_letter", "startPowerFactor": "start_power_factor"}

// mostApparent is the most that package electrical takes for one load.
const mostApparent = 1e6 * units.VoltAmpere

// senseOfPlate refuses plates that contradict themselves.
func senseOfPlate(l *Load) []error {
	if l.Running == 0 || l.Starting < l.Running {
		return nil // said elsewhere
	}
	at := "loads[" + l.ID + "]."
	_, err := l.plate().Load()
	var out []error
	for _, e := range splitErrors(err) {
		var f *units.FieldError
		if !errors.As(e, &f) {
			out = append(out, e)
			continue
		}
		c := *f
		if name, ok := plateFields[c.Path]; ok {
			c.Path = name
		}
		c.Path = at + c.Path
		out = append(out, &c)
	}
	for _, x := range []struct {
		name string
		p    units.Power
		s    units.ApparentPower
	}{{"running_apparent", l.Running, l.RunningApparent}, {"starting_apparent", l.Starting, l.StartingApparent}} {
		if x.s != 0 && float64(x.p) > float64(x.s)*(1+1e-9) {
			out = append(out, &units.FieldError{Path: at + x.name, Value: exact(x.s), Want: "at least the watts beside it, " + exact(x.p), Err: units.ErrConflict})
		}
	}
	if e := l.electric(); e.StartingApparent > mostApparent {
		out = append(out, &units.FieldError{Path: at + "starting", Value: exact(l.Starting), Want: "with its power factor at most 1,000,000 VA; this is " + exact(e.StartingApparent), Err: units.ErrConflict})
	}
	if run, start := l.apparent(); l.StartingApparent != 0 && run != 0 && float64(start) < float64(run)*(1-1e-9) {
		out = append(out, &units.FieldError{Path: at + "starting_apparent", Value: exact(start), Want: "at least the running volt-amperes, " + exact(run), Err: units.ErrConflict})
	}
	return out
}

func splitErrors(err error) []error {
	if err == nil {
		return nil
	}
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		var out []error
		for _, e := range j.Unwrap() {
			out = append(out, splitErrors(e)...)
		}
		return out
	}
	return []error{err}
}

// senseOfWiring refuses sources, cords and outlets that contradict one another.
func senseOfWiring(s *Spec) []error {
	var errs []error
	conflict := func(path Path, value, want string) {
		errs = append(errs, &units.FieldError{Path: string(path), Value: value, Want: want, Err: units.ErrConflict})
	}
	missing := func(path Path, want string) {
		errs = append(errs, &units.FieldError{Path: string(path), Want: want, Err: units.ErrMissing})
	}
	for i := range s.Sources {
		g := &s.Sources[i]
		at := Path("sources[" + g.ID + "]")
		if (g.Type == "inverter" || g.Type == "shore") && g.Engine != "" {
			conflict(at+".engine", g.Engine, "nothing; only a belt generator is driven by an engine of the rig")
		}
		if g.Battery != "" && g.Type != "inverter" {
			conflict(at+".battery", g.Battery, "nothing; only an inverter is fed from a battery")
		}
		if g.StartingApparent != 0 && g.StartingApparent < g.RunningApparent {
			conflict(at+".starting_apparent", exact(g.StartingApparent), "at least the running volt-amperes, "+exact(g.RunningApparent))
		}
		runs := g.Running
		if g.AlternatorRunning != 0 {
			runs = min(runs, g.AlternatorRunning)
		}
		if g.AlternatorStarting != 0 && g.AlternatorStarting < runs {
			conflict(at+".alternator_starting", exact(g.AlternatorStarting), "at least what it carries for hours, "+exact(runs))
		}
		if g.Poles%2 != 0 {
			conflict(at+".poles", "an odd number", "an even number of poles, such as 2")
		}
		if (g.Speed != 0 || g.IdleSpeed != 0) && g.Poles == 0 {
			missing(at+".poles", "the poles of the alternator, such as 2; they make its frequency from its speed")
		}
		if g.Speed != 0 && g.IdleSpeed > g.Speed {
			conflict(at+".idle_speed", exact(g.IdleSpeed), "at most its speed, "+exact(g.Speed))
		}
	}
	byID := map[string]*Load{}
	byHand := true
	burner := map[string]string{}
	var hand []electrical.Load
	for i := range s.Loads {
		l := &s.Loads[i]
		byID[l.ID] = l
		errs = append(errs, senseOfPlate(l)...)
		if l.Heater != "" && l.Class == "burner" {
			if other, dup := burner[l.Heater]; dup {
				conflict(Path("loads["+l.ID+"].heater"), l.Heater, "a heater without a burner; load "+other+" is its burner")
			}
			burner[l.Heater] = l.ID
		}
		if l.FanPoles%2 != 0 {
			conflict(Path("loads["+l.ID+"].fan_poles"), "an odd number", "an even number of poles, such as 2")
		}
		for k := range s.Sources {
			g := &s.Sources[k]
			if l.FanPoles == 0 || l.FanSpeed == 0 || g.Frequency == 0 || !l.reaches(g.ID) {
				continue
			}
			if n, err := electrical.GeneratorSpeed(g.Frequency, l.FanPoles); err == nil && (l.FanSpeed > n*(1-1e-4) || l.FanSpeed < n*0.51) {
				conflict(Path("loads["+l.ID+"].fan_speed"), exact(l.FanSpeed), "less than the speed of its field, "+exact(n)+", and more than half of it")
			}
		}
	}
	for i := range s.Loads {
		l := &s.Loads[i]
		at := Path("loads[" + l.ID + "]")
		for k := range s.Outlets {
			if o := &s.Outlets[k]; o.ID == l.Outlet && l.Outlet != "" && o.Source != l.Source {
				conflict(at+".outlet", l.Outlet, "an outlet of its source, "+l.Source)
			}
		}
		if len(l.After) > 0 && l.Starts != "by-hand" {
			conflict(at+".after", strings.Join(l.After, ", "), "nothing; a load that starts by itself waits for nobody")
			byHand = false
		}
		for _, a := range l.After {
			switch {
			case a == l.ID:
				conflict(at+".after", a, "another load")
				byHand = false
			case byID[a] != nil && byID[a].Starts != "by-hand":
				conflict(at+".after", a, "a load that is started by hand")
				byHand = false
			}
		}
		if l.Starts == "by-hand" && l.Running != 0 && l.Starting >= l.Running {
			hand = append(hand, electrical.Load{Name: l.ID, Running: l.Running, Starting: l.Starting, Starts: electrical.ByHand, After: l.After})
		}
	}
	if byHand && len(hand) > 0 && len(hand) <= electrical.MaxLoads {
		if _, err := electrical.StartPeaks(hand); err != nil {
			errs = append(errs, err)
		}
	}
	for i := range s.Cords {
		c := &s.Cords[i]
		at := Path("cords[" + c.ID + "]")
		for k := range c.Loads {
			if slices.Contains(c.Loads[:k], c.Loads[k]) {
				conflict(at+".loads", c.Loads[k], "each load once")
			}
			if l := byID[c.Loads[k]]; l != nil && c.Source != "" && !l.reaches(c.Source) {
				conflict(at+".source", c.Source, "a source that its load "+l.ID+" may be plugged into")
			}
		}
		for k := range i {
			if o := &s.Cords[k]; !nested(c.Loads, o.Loads) {
				conflict(at+".loads", strings.Join(c.Loads, ", "), "the loads of cord "+o.ID+", some of them, or none of them")
			}
		}
	}
	return errs
}

// nested reports whether one list is part of the other, or they share nothing.
func nested(a, b []string) bool {
	common := 0
	for _, x := range a {
		if slices.Contains(b, x) {
			common++
		}
	}
	return common == 0 || common == len(a) || common == len(b)
}

// gaugeOf reads a gauge that the field's choices have let through.
func gaugeOf(s string) electrical.Gauge {
	g, err := electrical.ParseGauge(s)
	if err != nil {
		return 0
	}
	return g
}
