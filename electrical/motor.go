package electrical

import (
	"fmt"
	"math"

	"example.com/washrig/units"
)

// Full-load currents of single-phase motors, A.
//
// Source: NFPA 70 (NEC) Table 430.248 (430-148 in the 1999 edition, same
// values), two public reproductions.
var fullLoad = [...]struct {
	horsepower             float64
	v115, v200, v208, v230 float64
}{
	{1. / 6, 4.4, 2.5, 2.4, 2.2},
	{1. / 4, 5.8, 3.3, 3.2, 2.9},
	{1. / 3, 7.2, 4.1, 4.0, 3.6},
	{1. / 2, 9.8, 5.6, 5.4, 4.9},
	{3. / 4, 13.8, 7.9, 7.6, 6.9},
	{1, 16, 9.2, 8.8, 8.0},
	{1.5, 20, 11.5, 11.0, 10},
	{2, 24, 13.8, 13.2, 12},
	{3, 34, 19.6, 18.7, 17},
	{5, 56, 32.2, 30.8, 28},
	{7.5, 80, 46.0, 44.0, 40},
	{10, 100, 57.5, 55.0, 50},
}

// FullLoadCurrent returns the current by which the code sizes conductors of a
// single-phase motor, whatever its plate says. The motor itself draws less as a
// rule.
//
// Range: the ratings of the table, 1/6 to 10 hp, at 115, 200, 208 and 230 V.
// Anything else is an error: a motor between two rows is not in the table.
//
// Errors: units.ErrMissing and units.ErrRange, paths "shaftPower" and "voltage".
//
// Source: NFPA 70 (NEC) Table 430.248; check the edition in force.
func FullLoadCurrent(shaft units.Power, voltage units.Voltage) (units.Current, error) {
	var p problems
	p.power("shaftPower", shaft)
	p.required("voltage", float64(voltage), minVoltage, maxVoltage, inVolts)
	if err := p.err(); err != nil {
		return 0, err
	}
	for _, row := range fullLoad {
		// "1/3 hp" and "0.333 hp" are the same plate.
		if hp := shaft.In(units.Horsepower); math.Abs(hp-row.horsepower) > 2e-3*row.horsepower {
			continue
		}
		switch voltage {
		case 115:
			return units.Current(row.v115), nil
		case 200:
			return units.Current(row.v200), nil
		case 208:
			return units.Current(row.v208), nil
		case 230:
			return units.Current(row.v230), nil
		}
		p.rangef("voltage", voltage, "115, 200, 208 or 230 V")
		return 0, p.err()
	}
	p.rangef("shaftPower", shaft, "a rating of NEC Table 430.248: 1/6, 1/4, 1/3, 1/2, 3/4, 1, 1-1/2, 2, 3, 5, 7-1/2 or 10 hp")
	return 0, p.err()
}

// MotorConductorCurrent returns what the conductors of a single motor must carry:
//
//	I = 1.25 · I_full load
//
// Errors: units.ErrMissing and units.ErrRange, path "fullLoad".
//
// Source: NFPA 70 (NEC) 430.22, with the current of [FullLoadCurrent].
func MotorConductorCurrent(fullLoad units.Current) (units.Current, error) {
	var p problems
	p.required("fullLoad", float64(fullLoad), minCurrent, maxCurrent, inAmperes)
	if err := p.err(); err != nil {
		return 0, err
	}
	return 1.25 * fullLoad, nil
}

// Locked-rotor code letters, kVA per horsepower. V has no upper end.
//
// Source: NEMA MG 1 and NFPA 70 (NEC) Table 430.7(B), three public
// reproductions; some print 3.55 for the upper end of B and the range of J at H.
var codeLetters = [...]struct {
	letter   byte
	min, max float64
}{
	{'A', 0, 3.14},
	{'B', 3.15, 3.54},
	{'C', 3.55, 3.99},
	{'D', 4.0, 4.49},
	{'E', 4.5, 4.99},
	{'F', 5.0, 5.59},
	{'G', 5.6, 6.29},
	{'H', 6.3, 7.09},
	{'J', 7.1, 7.99},
	{'K', 8.0, 8.99},
	{'L', 9.0, 9.99},
	{'M', 10.0, 11.19},
	{'N', 11.2, 12.49},
	{'P', 12.5, 13.99},
	{'R', 14.0, 15.99},
	{'S', 16.0, 17.99},
	{'T', 18.0, 19.99},
	{'U', 20.0, 22.39},
	{'V', 22.4, math.Inf(1)},
}

// LockedRotor is the band that a code letter leaves for the start of a motor.
type LockedRotor struct {
	Low, High               units.ApparentPower
	LowCurrent, HighCurrent units.Current
}

// LockedRotorOf returns what a motor with a code letter draws with its rotor held:
//
//	S = (kVA/hp) · hp,   I = S / V,   I = S / (√3 · V) three-phase
//
// Range: A to U. The letter V has no upper end and is an error, as are the
// letters I, O and Q, which are not used.
//
// Errors: units.ErrMissing and units.ErrRange, paths "codeLetter",
// "shaftPower" and "voltage".
//
// Source: NEMA MG 1 and NFPA 70 (NEC) Table 430.7(B).
func LockedRotorOf(letter string, shaft units.Power, voltage units.Voltage, threePhase bool) (LockedRotor, error) {
	var p problems
	lo, hi := p.codeLetter("codeLetter", letter)
	p.power("shaftPower", shaft)
	p.required("voltage", float64(voltage), minVoltage, maxVoltage, inVolts)
	if err := p.err(); err != nil {
		return LockedRotor{}, err
	}
	hp := shaft.In(units.Horsepower)
	v := float64(voltage) * phaseFactor(threePhase)
	return LockedRotor{
		Low:         units.ApparentPower(1000 * lo * hp),
		High:        units.ApparentPower(1000 * hi * hp),
		LowCurrent:  units.Current(1000 * lo * hp / v),
		HighCurrent: units.Current(1000 * hi * hp / v),
	}, nil
}

func (p *problems) codeLetter(path, letter string) (lo, hi float64) {
	if letter == "" {
		p.missing(path, "the code letter of the plate")
		return 0, 0
	}
	for _, row := range codeLetters {
		if letter == string(row.letter) && !math.IsInf(row.max, 1) {
			return row.min, row.max
		}
	}
	p.rangef(path, letter, "A to H, J to N, P or R to U; V has no upper end")
	return 0, 0
}

func phaseFactor(threePhase bool) float64 {
	if threePhase {
		return math.Sqrt(3)
	}
	return 1
}

// A Plate is what is known of a load: its name plate, its sheet, a clamp meter.
// Any field but the name and the start mode may be missing, as long as the
// rest is enough; see [Plate.Load].
type Plate struct {
	Name       string
	Starts     StartMode
	ThreePhase bool

	Voltage     units.Voltage
	Current     units.Current // running, at full load
	Input       units.Power   // electric watts running
	ShaftPower  units.Power   // what a motor gives, its horsepower
	Efficiency  units.Ratio   // ShaftPower over Input
	PowerFactor units.Ratio   // Input over volt-amperes

	StartPower       units.Power   // watts while starting
	MeasuredStart    units.Current // by clamp meter
	LockedRotor      units.Current // locked-rotor current of the plate
	CodeLetter       string        // of the plate; needs ShaftPower
	StartPowerFactor units.Ratio   // watts over volt-amperes while starting
}

// StartBasis says what a start was taken from.
type StartBasis int

// Bases of a start, in the order in which [Plate.Load] prefers them.
const (
	StartMeasured StartBasis = iota + 1
	StartLockedRotor
	StartCodeLetter
	StartWatts
)

// String returns the basis in words.
func (b StartBasis) String() string {
	switch b {
	case StartMeasured:
		return "measured start current"
	case StartLockedRotor:
		return "locked-rotor current of the plate"
	case StartCodeLetter:
		return "upper end of the code letter"
	case StartWatts:
		return "starting watts"
	}
	return fmt.Sprintf("StartBasis(%d)", int(b))
}

// A PlateLoad is a load read off a plate.
type PlateLoad struct {
	Load
	PowerFactor  units.Ratio   // running; zero if the plate does not tell
	Current      units.Current // running; zero if the plate does not tell
	StartCurrent units.Current // zero if the plate does not tell
	Basis        StartBasis
	// AtMost is set where the starting watts are not known but their upper
	// bound, the starting volt-amperes, stands in for them.
	AtMost bool
}

// plateRounding is how far two figures of a plate may disagree. Plates print
// two digits or more; half a unit in the second of two digits is at most 5 %.
const plateRounding = 0.05

// Load returns the load that a plate describes.
//
// Running watts are Input, else ShaftPower/Efficiency, else V·I·cos φ (√3 times
// that three-phase). Running volt-amperes are V·I, else watts/cos φ; without
// either the load has none.
//
// The start current is the measured one, else the locked-rotor current, else
// the upper end of the code letter; its volt-amperes are V·I. Starting watts are
// StartPower if given, else volt-amperes times StartPowerFactor, else the
// volt-amperes themselves, an upper bound (AtMost). A start never counts for
// less than the running it ends in. With StartPower alone the load has no
// volt-amperes, since its start has none.
//
// A plate that contradicts itself is units.ErrConflict at the field: volts times
// amperes less than its watts ("input"), more at the shaft than goes in
// ("shaftPower"), a start current below the running one, or two ways to the
// same watts that differ by more than plates round (5 % for each figure). A
// plate whose start is not told is units.ErrMissing at "start"; see
// [TypicalStart].
//
// Errors: those, and units.ErrMissing and units.ErrRange at the fields.
//
// Source: definitions of power factor and efficiency.
func (pl Plate) Load() (PlateLoad, error) {
	var p problems
	if pl.Name == "" {
		p.missing("name", "a name that tells this load from the others")
	}
	switch pl.Starts {
	case ByHand, ByItself:
	case 0:
		p.missing("starts", "by hand or by itself")
	default:
		p.rangef("starts", pl.Starts, "by hand or by itself")
	}
	p.optional("voltage", float64(pl.Voltage), minVoltage, maxVoltage, inVolts)
	p.optional("current", float64(pl.Current), minCurrent, maxCurrent, inAmperes)
	p.optional("input", float64(pl.Input), minPower, maxPower, inWatts)
	p.optional("shaftPower", float64(pl.ShaftPower), minPower, maxPower, inWatts)
	p.optional("efficiency", float64(pl.Efficiency), minShare, 1, ratio("(100 %)"))
	p.optional("powerFactor", float64(pl.PowerFactor), minShare, 1, ratio("(100 %)"))
	p.optional("startPower", float64(pl.StartPower), minPower, maxPower, inWatts)
	p.optional("measuredStart", float64(pl.MeasuredStart), minCurrent, maxCurrent, inAmperes)
	p.optional("lockedRotor", float64(pl.LockedRotor), minCurrent, maxCurrent, inAmperes)
	p.optional("startPowerFactor", float64(pl.StartPowerFactor), minShare, 1, ratio("(100 %)"))
	if err := p.err(); err != nil {
		return PlateLoad{}, err
	}
	run := pl.running(&p)
	start := pl.starting(&p, &run)
	if err := p.err(); err != nil {
		return PlateLoad{}, err
	}
	r := PlateLoad{
		Load:         Load{Name: pl.Name, Starts: pl.Starts, Running: units.Power(run.p), Starting: units.Power(max(start.p, run.p))},
		Current:      units.Current(run.i),
		StartCurrent: units.Current(start.i),
		Basis:        start.basis,
		AtMost:       start.atMost,
	}
	if run.s > 0 {
		r.PowerFactor = units.Ratio(run.p / run.s)
		if start.s > 0 {
			r.RunningApparent = units.ApparentPower(run.s)
			r.StartingApparent = units.ApparentPower(max(start.s, run.s, float64(r.Starting)))
		}
	}
	return r, r.Validate()
}

// plateSide is one side of a plate: running or starting.
type plateSide struct {
	p, s, i float64 // W, VA, A; zero if unknown
	basis   StartBasis
	atMost  bool
}

func (pl *Plate) running(p *problems) (r plateSide) {
	v := float64(pl.Voltage) * phaseFactor(pl.ThreePhase)
	cos, eta := float64(pl.PowerFactor), float64(pl.Efficiency)
	r.i, r.s = float64(pl.Current), v*float64(pl.Current)

	// Every way to the running watts, the preferred first, and how many
	// rounded figures each is made of.
	type way struct {
		w       float64
		figures float64
		field   string
	}
	var ways []way
	if pl.Input > 0 {
		ways = append(ways, way{float64(pl.Input), 1, "input"})
	}
	if pl.ShaftPower > 0 && eta > 0 {
		ways = append(ways, way{float64(pl.ShaftPower) / eta, 2, "efficiency"})
	}
	if r.s > 0 && cos > 0 {
		ways = append(ways, way{r.s * cos, 2, "powerFactor"})
	}
	if len(ways) == 0 {
		p.missing("input", "the running watts, or shaft power and efficiency, or volts, amperes and power factor")
		return r
	}
	r.p = ways[0].w
	for _, w := range ways[1:] {
		if off := math.Abs(w.w-r.p) / r.p; off > plateRounding*(w.figures+ways[0].figures) {
			p.conflict(w.field, units.Power(w.w), fmt.Sprintf("about %v, as its %s says", units.Power(r.p), ways[0].field))
		}
	}
	if r.s > 0 {
		if r.p > r.s*(1+plateRounding) {
			p.conflict(ways[0].field, units.Power(r.p), fmt.Sprintf("at most volts times amperes, %v", units.ApparentPower(r.s)))
		}
		r.s = max(r.s, r.p)
	} else if cos > 0 {
		r.s = r.p / cos
		if v > 0 {
			r.i = r.s / v
		}
	}
	if shaft := float64(pl.ShaftPower); shaft > r.p*(1+plateRounding) {
		p.conflict("shaftPower", pl.ShaftPower, fmt.Sprintf("at most what goes in, %v", units.Power(r.p)))
	}
	return r
}

func (pl *Plate) starting(p *problems, run *plateSide) (s plateSide) {
	v := float64(pl.Voltage) * phaseFactor(pl.ThreePhase)
	needVolts := func() {
		if v == 0 {
			p.missing("voltage", "the voltage at which the start current flows")
		}
	}
	switch {
	case pl.MeasuredStart > 0:
		needVolts()
		s = plateSide{i: float64(pl.MeasuredStart), s: v * float64(pl.MeasuredStart), basis: StartMeasured}
		below(p, "measuredStart", pl.MeasuredStart, run.i)
	case pl.LockedRotor > 0:
		needVolts()
		s = plateSide{i: float64(pl.LockedRotor), s: v * float64(pl.LockedRotor), basis: StartLockedRotor}
		below(p, "lockedRotor", pl.LockedRotor, run.i)
	case pl.CodeLetter != "":
		_, hi := p.codeLetter("codeLetter", pl.CodeLetter)
		if pl.ShaftPower == 0 {
			p.missing("shaftPower", "the horsepower that the code letter belongs to")
		}
		s = plateSide{s: 1000 * hi * pl.ShaftPower.In(units.Horsepower), basis: StartCodeLetter}
		if v > 0 {
			s.i = s.s / v
		}
	case pl.StartPower > 0:
		s = plateSide{basis: StartWatts}
	default:
		p.missing("start", "a measured start current, the locked-rotor current, the code letter with the shaft power, or starting watts")
		return s
	}
	switch {
	case pl.StartPower > 0:
		s.p = float64(pl.StartPower)
		if s.s > 0 && s.p > s.s*(1+plateRounding) {
			p.conflict("startPower", pl.StartPower, fmt.Sprintf("at most the volt-amperes of the %v, %v", s.basis, units.ApparentPower(s.s)))
		}
	case pl.StartPowerFactor > 0:
		s.p = s.s * float64(pl.StartPowerFactor)
	default:
		s.p, s.atMost = s.s, true
	}
	return s
}

// below reports a start current that is less than the running one.
func below(p *problems, path string, start units.Current, running float64) {
	if float64(start) < running*(1-plateRounding) {
		p.conflict(path, start, fmt.Sprintf("at least the running current, %v", units.Current(running)))
	}
}

// SoftStarted returns the load behind a soft starter that holds its current to
// limit times the running current, and the share of the standstill torque that
// is left for the start, k² for a current cut to k.
//
// Volt-amperes are cut to limit times the running ones. Watts are cut in the
// same proportion k, never below running; those lost in a rotor at rest fall
// with k², so the proportion is an upper bound. Where the load does not say its
// volt-amperes, its watts are cut to limit times the running ones, which is an
// upper bound where a start has no better power factor than the run.
// A load that starts below the limit is returned as it is.
//
// Range: limit from 1 to 100.
//
// Errors: units.ErrMissing and units.ErrRange, path "limit", and those of
// [Load.Validate].
//
// Source: torque of an induction motor goes with the square of its current at a
// given slip.
func (l Load) SoftStarted(limit units.Ratio) (soft Load, torque units.Ratio, err error) {
	var p problems
	l.fields(&p, "")
	p.required("limit", float64(limit), 1, 100, ratio("times the running current"))
	if err := p.err(); err != nil {
		return Load{}, 0, err
	}
	k := float64(limit) * float64(l.Running) / float64(l.Starting)
	if l.apparent() {
		k = float64(limit) * float64(l.RunningApparent) / float64(l.StartingApparent)
	}
	if k >= 1 {
		return l, 1, nil
	}
	l.Starting = max(l.Running, units.Power(k*float64(l.Starting)))
	if l.apparent() {
		l.StartingApparent = max(l.RunningApparent, units.ApparentPower(k*float64(l.StartingApparent)))
	}
	return l, units.Ratio(k * k), nil
}
