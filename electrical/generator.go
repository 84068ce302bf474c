package electrical

import (
	"math"

	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// GeneratorFrequency returns the frequency of a synchronous generator:
//
//	f = n · p / 120
//
// n is its own speed in rev/min (engine speed times belt ratio), p its number of
// poles.
//
// Range: an even number of poles from 2 to 100, speeds to 100,000 rev/min.
//
// Errors: units.ErrMissing and units.ErrRange, paths "speed" and "poles".
//
// Source: definition of the synchronous machine.
func GeneratorFrequency(speed units.RotationalSpeed, poles int) (units.Frequency, error) {
	var p problems
	p.within("speed", float64(speed), 0, maxSpeed, inRadiansPerSecond)
	p.poles("poles", poles)
	if err := p.err(); err != nil {
		return 0, err
	}
	return units.Frequency(float64(speed) / (2 * math.Pi) * float64(poles) / 2), nil
}

// GeneratorSpeed returns the speed at which a synchronous machine of p poles has
// a frequency, the inverse of [GeneratorFrequency].
//
// Errors: units.ErrMissing and units.ErrRange, paths "frequency" and "poles".
func GeneratorSpeed(frequency units.Frequency, poles int) (units.RotationalSpeed, error) {
	var p problems
	p.within("frequency", float64(frequency), 0, maxFrequency, inHertz)
	p.poles("poles", poles)
	if err := p.err(); err != nil {
		return 0, err
	}
	return units.RotationalSpeed(float64(frequency) * 2 * math.Pi * 2 / float64(poles)), nil
}

const (
	maxSpeed     = 1e4 // rad/s
	maxFrequency = 1e4 // Hz
)

func (p *problems) poles(path string, n int) {
	switch {
	case n == 0:
		p.missing(path, "an even number from 2 to 100")
	case n < 2 || n > 100 || n%2 != 0:
		p.rangef(path, n, "an even number from 2 to 100")
	}
}

// DroopFrequency returns the frequency of a set whose governor lets the speed
// fall in proportion to the load:
//
//	f = f_0 − (f_0 − f_r) · s,   f_r = f_0 / (1 + δ)
//
// f_0 is the frequency without load, s the load as a share of the rated power,
// δ the droop (f_0 − f_r)/f_r. Range: δ from 0 to 0.5, s from 0 to 2.
//
// Errors: units.ErrMissing and units.ErrRange, paths "noLoad", "droop", "share".
//
// Source: ISO 8528-5, definition of the frequency droop.
func DroopFrequency(noLoad units.Frequency, droop, share units.Ratio) (units.Frequency, error) {
	var p problems
	p.required("noLoad", float64(noLoad), 1, maxFrequency, inHertz)
	p.within("droop", float64(droop), 0, 0.5, ratio("(50 %)"))
	p.within("share", float64(share), 0, 2, ratio("(200 %)"))
	if err := p.err(); err != nil {
		return 0, err
	}
	f0 := float64(noLoad)
	return units.Frequency(f0 - (f0-f0/(1+float64(droop)))*float64(share)), nil
}

// RegulatedVoltage returns the voltage of a generator at a frequency below its
// rated one. A regulator holds the rated voltage down to a knee and lets it fall
// in proportion to the frequency below, to spare the field:
//
//	V = V_r                  f ≥ k·f_r
//	V = V_r · f / (k·f_r)    f < k·f_r
//
// knee is k, from 0.5 to 1.2; a machine with permanent magnets behaves as one
// with a knee above every speed it reaches. At idle the voltage of a portable
// set is that of the line below the knee.
//
// Errors: units.ErrMissing and units.ErrRange, paths "rated", "ratedFrequency",
// "frequency", "knee".
//
// Source: common practice of voltage regulators ("underfrequency roll-off").
func RegulatedVoltage(rated units.Voltage, ratedFrequency, frequency units.Frequency, knee units.Ratio) (units.Voltage, error) {
	var p problems
	p.required("rated", float64(rated), minVoltage, maxVoltage, inVolts)
	p.required("ratedFrequency", float64(ratedFrequency), 1, maxFrequency, inHertz)
	p.within("frequency", float64(frequency), 0, maxFrequency, inHertz)
	p.required("knee", float64(knee), 0.5, 1.2, ratio("of the rated frequency"))
	if err := p.err(); err != nil {
		return 0, err
	}
	x := float64(frequency) / (float64(knee) * float64(ratedFrequency))
	return units.Voltage(float64(rated) * min(x, 1)), nil
}

// An Alternator is a synchronous generator as its own voltage sees it.
type Alternator struct {
	Rating               units.ApparentPower // base of the per-unit values
	Resistance           units.Ratio         // per unit; may be zero
	TransientReactance   units.Ratio         // X'd, per unit
	SynchronousReactance units.Ratio         // Xd, per unit; only SustainedVoltage needs it
}

func (a *Alternator) fields(p *problems) {
	p.apparent("rating", a.Rating)
	p.within("resistance", float64(a.Resistance), 0, 1, ratio("per unit"))
	p.required("transientReactance", float64(a.TransientReactance), 1e-3, 2, ratio("per unit"))
	if p.optional("synchronousReactance", float64(a.SynchronousReactance), 1e-3, 10, ratio("per unit")) && a.SynchronousReactance < a.TransientReactance {
		p.conflict("synchronousReactance", a.SynchronousReactance, "at least the transient reactance, "+a.TransientReactance.String())
	}
}

// VoltageDip returns the share of the voltage that a generator without other
// load loses at the instant when a motor of starting volt-amperes S_s is
// switched on, as a divider of reactances:
//
//	ΔV/V = X'd / (X'd + S_g/S_s)
//
// The form X'd·S_s/S_g that is also in use takes the current of full voltage
// and overstates. Other loads and power factors: [Alternator.StartDip].
//
// Errors: units.ErrMissing and units.ErrRange, paths as the fields of
// Alternator and "start".
//
// Source: voltage divider between X'd and the motor at rest.
func (a Alternator) VoltageDip(start units.ApparentPower) (units.Ratio, error) {
	var p problems
	a.fields(&p)
	p.within("start", float64(start), 0, maxPower, inVoltAmperes)
	if err := p.err(); err != nil {
		return 0, err
	}
	s := float64(start) / float64(a.Rating)
	x := float64(a.TransientReactance)
	return units.Ratio(x * s / (1 + x*s)), nil
}

// LargestStart returns the starting volt-amperes that cost a generator without
// other load the share dip of its voltage, the inverse of [Alternator.VoltageDip]:
//
//	S_s = S_g / X'd · dip / (1 − dip)
//
// Range: dip from 0.001 to 0.9.
//
// Errors: units.ErrMissing and units.ErrRange, as the fields and "dip".
func (a Alternator) LargestStart(dip units.Ratio) (units.ApparentPower, error) {
	var p problems
	a.fields(&p)
	p.required("dip", float64(dip), 1e-3, 0.9, ratio("of the voltage"))
	if err := p.err(); err != nil {
		return 0, err
	}
	d := float64(dip)
	return units.ApparentPower(float64(a.Rating) / float64(a.TransientReactance) * d / (1 - d)), nil
}

// StartDip returns the share of its voltage that a loaded generator loses at the
// instant of a start. All loads are impedances and all lag:
//
//	E = 1 + Z·(p₀ − j·q₀),   V = E / (1 + Z·Y),   Y = (p₀ + p_s) − j·(q₀ + q_s)
//	dip = 1 − |V|
//
// Z = R + jX'd is the source's impedance, p and q the active and non-active parts
// of what runs (0) and of what starts (s) at full voltage, per unit of the
// rating; E, the voltage behind the reactance, stays what it was.
//
// Errors: units.ErrMissing and units.ErrRange, as the fields, "running" and
// "starting"; both demands need their apparent power, but running may be zero.
//
// Source: D. Sheldrake (A. L. Sheldrake), Handbook of Electrical Engineering,
// Wiley 2003, Appendix G, whose example is in the tests.
func (a Alternator) StartDip(running, starting Demand) (units.Ratio, error) {
	var p problems
	a.fields(&p)
	p.demand("running", running)
	p.demand("starting", starting)
	if err := p.err(); err != nil {
		return 0, err
	}
	y0, ys := a.admittance(running), a.admittance(starting)
	z := complex(float64(a.Resistance), float64(a.TransientReactance))
	e := 1 + z*y0
	return units.Ratio(1 - absolute(e)/absolute(1+z*(y0+ys))), nil
}

// admittance is a lagging demand per unit of the rating at full voltage.
func (a *Alternator) admittance(d Demand) complex128 {
	base := float64(a.Rating)
	return complex(float64(d.Power)/base, -nonActive(float64(d.Apparent), float64(d.Power))/base)
}

func absolute(z complex128) float64 { return math.Sqrt(real(z)*real(z) + imag(z)*imag(z)) } // near one

func (p *problems) demand(path string, d Demand) {
	const most = MaxLoads * maxPower
	if d.Power >= 0 && d.Power <= most && float64(d.Apparent) >= float64(d.Power) && d.Apparent <= most && (d.Apparent > 0 || d.Power == 0) {
		return // paths are spelt where something is wrong
	}
	ok := p.within(path+".power", float64(d.Power), 0, MaxLoads*maxPower, inWatts)
	if d.Power > 0 && d.Apparent == 0 {
		p.missing(path+".apparent", "its volt-amperes")
	} else if p.within(path+".apparent", float64(d.Apparent), 0, MaxLoads*maxPower, inVoltAmperes) && ok &&
		float64(d.Apparent) < float64(d.Power)*(1-apparentSlack) {
		p.conflict(path+".apparent", d.Apparent, "at least its power, "+d.Power.String())
	}
}

// SustainedVoltage returns the share of its rated voltage that a generator holds
// under a lasting demand when its regulator has done what it can:
//
//	V = min(1, E_max · 1/|1 + Z·Y|),   Z = R + jXd
//
// E_max is the ceiling of the excitation, as the voltage without load that it
// would make, per unit; Y as in [Alternator.StartDip]. A motor that does not
// come up to speed keeps the demand of its start.
//
// Errors: units.ErrMissing and units.ErrRange, as the fields (with the
// synchronous reactance), "ceiling" (1 to 10) and "load".
//
// Source: cylindrical-rotor machine behind its synchronous reactance.
func (a Alternator) SustainedVoltage(ceiling units.Ratio, load Demand) (units.Ratio, error) {
	var p problems
	a.fields(&p)
	if a.SynchronousReactance == 0 {
		p.missing("synchronousReactance", "Xd, per unit")
	}
	p.required("ceiling", float64(ceiling), 1, 10, ratio("per unit"))
	p.demand("load", load)
	if err := p.err(); err != nil {
		return 0, err
	}
	z := complex(float64(a.Resistance), float64(a.SynchronousReactance))
	return units.Ratio(min(1, float64(ceiling)/absolute(1+z*a.admittance(load)))), nil
}

// RecoveryTime returns how long a regulator takes to bring a voltage that has
// dipped back into a band:
//
//	t = T · ln[(dip − end) / (band − end)]
//
// dip, end and band are shares of the voltage that are missing: at once, in the
// end (1 − [Alternator.SustainedVoltage]) and at the edge of the band. T is the
// time constant of field and regulator together. Zero if the dip is inside the
// band; a band that is never reached is units.ErrRange.
//
// Errors: units.ErrMissing and units.ErrRange, paths "dip", "end", "band",
// "timeConstant".
//
// Source: first-order lag.
func RecoveryTime(dip, end, band units.Ratio, timeConstant units.Duration) (units.Duration, error) {
	var p problems
	p.within("dip", float64(dip), 0, 1, ratio("(100 %)"))
	p.within("end", float64(end), 0, 1, ratio("(100 %)"))
	p.share("band", band)
	p.required("timeConstant", float64(timeConstant), 1e-4, 1e3, inSeconds)
	if len(p.list) == 0 && dip > band && end >= band {
		p.rangef("band", band, "more than what is missing in the end, "+end.String())
	}
	if err := p.err(); err != nil {
		return 0, err
	}
	if dip <= band {
		return 0, nil
	}
	return units.Duration(float64(timeConstant) * math.Log(float64((dip-end)/(band-end)))), nil
}

// A Governed set is a generator with the engine that drives it.
type Governed struct {
	Rated        units.Power    // electric
	Inertia      units.Duration // H: energy of all that turns at rated speed over rated power
	Droop        units.Ratio    // fall of speed from no load to rated load, over rated speed
	TimeConstant units.Duration // of governor and engine: how fast power follows speed
}

// A FrequencyDip is what a sudden load does to the frequency, as shares of the
// rated frequency.
type FrequencyDip struct {
	Dip         units.Ratio    // deepest
	At          units.Duration // when; zero if the deepest is the lasting one
	Lasting     units.Ratio    // fall in the end, the droop's part
	InitialRate units.Ratio    // fall per second at the first instant
}

// FrequencyDip returns the fall of frequency when a load is put on at once. With
// ω the deviation of speed, p that of engine power and P the step, all per unit,
//
//	2H · dω/dt = p − P,   T · dp/dt = −ω/R − p
//
// R is the droop and T the time constant. With ω_n = 1/√(2HTR), where
// 2·T·ω_n > 1,
//
//	dip = R·P·(1 + T·ω_n·e^(−t/2T)),   t = (π − arctan 2Tω_d)/ω_d,   ω_d² = ω_n² − 1/(4T²)
//
// else the speed falls to R·P without passing it. The engine is taken to reach
// any power: whether it can is for its power at the site to say.
//
// Range: step from 0 to 2 times the rated power; H from 0.01 to 100 s, T from
// 0.001 to 100 s, droop from 0.001 to 0.5.
//
// Errors: units.ErrMissing and units.ErrRange, as the fields and "step".
//
// Source: swing equation with a first-order governor; the closed form is derived
// from it and checked by integrating it (TestFrequencyDip_integrated).
func (s Governed) FrequencyDip(step units.Power) (FrequencyDip, error) {
	var p problems
	rated := p.power("rated", s.Rated)
	p.required("inertia", float64(s.Inertia), 0.01, 100, inSeconds)
	p.required("droop", float64(s.Droop), 1e-3, 0.5, ratio("(50 %)"))
	p.required("timeConstant", float64(s.TimeConstant), 1e-3, 100, inSeconds)
	if rated {
		p.within("step", float64(step), 0, 2*float64(s.Rated), inWatts)
	}
	if err := p.err(); err != nil {
		return FrequencyDip{}, err
	}
	P := float64(step) / float64(s.Rated)
	H, R, T := float64(s.Inertia), float64(s.Droop), float64(s.TimeConstant)
	over, at := overshoot(H, R, T)
	return FrequencyDip{
		Dip:         units.Ratio(R * P * (1 + over)),
		At:          units.Duration(at),
		Lasting:     units.Ratio(R * P),
		InitialRate: units.Ratio(P / (2 * H)),
	}, nil
}

// overshoot returns how far the deepest fall passes the lasting one, as a share
// of it, and when.
func overshoot(H, R, T float64) (over, at float64) {
	wn2 := 1 / (2 * H * T * R)
	wd2 := wn2 - 1/(4*T*T)
	if wd2 <= 0 {
		return 0, 0
	}
	wd := math.Sqrt(wd2)
	at = (math.Pi - math.Atan(2*T*wd)) / wd
	over = T * math.Sqrt(wn2) * math.Exp(-at/(2*T))
	if over == 0 {
		at = 0 // too far away to be seen
	}
	return over, at
}

// A PerformanceClass is one of the classes of generating sets of ISO 8528-5.
type PerformanceClass struct {
	Name             string
	FrequencyDroop   units.Ratio
	FrequencyBand    units.Ratio // steady state
	FrequencyRise    units.Ratio // on losing the rated load
	FrequencyDip     units.Ratio // on sudden load
	FrequencyTime    units.Duration
	VoltageDeviation units.Ratio // steady state, either way
	VoltageUnbalance units.Ratio
	VoltageRise      units.Ratio // on losing the rated load
	VoltageDip       units.Ratio // on sudden load
	VoltageTime      units.Duration
	By               Standing
}

// Operating limits of engine-driven generating sets.
//
// Source: ISO 8528-5, columns G1 to G3; G2 as read in a public government
// generator specification, G1 and G3 from memory.
var performanceClasses = [...]PerformanceClass{
	{"G1", 0.08, 0.025, 0.18, 0.15, 10, 0.05, 0.01, 0.35, 0.25, 10, FromMemory},
	{"G2", 0.05, 0.015, 0.12, 0.10, 5, 0.025, 0.01, 0.25, 0.20, 6, Reproduced},
	{"G3", 0.03, 0.005, 0.10, 0.07, 3, 0.01, 0.01, 0.20, 0.15, 4, FromMemory},
}

// PerformanceClassNamed returns the limits of class "G1", "G2" or "G3".
//
// Errors: units.ErrMissing and units.ErrRange, path "class".
//
// Source: ISO 8528-5; see the field By.
func PerformanceClassNamed(name string) (PerformanceClass, error) {
	for _, c := range performanceClasses {
		if c.Name == name {
			return c, nil
		}
	}
	var p problems
	if name == "" {
		p.missing("class", "G1, G2 or G3")
	} else {
		p.rangef("class", name, "G1, G2 or G3")
	}
	return PerformanceClass{}, p.err()
}

// A FanMotor is an induction motor that drives a fan, such as a burner's.
type FanMotor struct {
	Voltage   units.Voltage // rated
	Frequency units.Frequency
	Poles     int
	Speed     units.RotationalSpeed // at rated voltage with the fan
	Breakdown units.Ratio           // greatest torque over the torque at Speed, more than 1
}

// A FanState is how a fan runs.
type FanState struct {
	Speed units.RotationalSpeed
	Slip  units.Ratio // (n_s − n)/n_s
	Air   units.Ratio // flow over that at the rated speed, n/n_r
	Power units.Ratio // power drawn over that at the rated point, T·n_s; stator losses not counted
	Holds bool        // false: the motor pulls out; Speed, Slip, Air and Power are zero
}

// At returns how the fan runs at another voltage and frequency. The torque of
// the motor follows Kloss, that of the fan the square of its speed:
//
//	T = 2·T_b / (Δ/Δ_b + Δ_b/Δ),   T_b ∝ (V/f)²,   T_fan ∝ n²,   Q ∝ n,   P = T·n_s
//
// Δ = n_s − n is the slip speed and Δ_b that of the greatest torque T_b, from
// the rated point; it does not change with voltage or frequency. Below the
// voltage at which the fan needs more than T_b the motor pulls out.
//
// Range: voltage from 0.1 to 2 and frequency from 0.2 to 2 times the rated
// ones; Breakdown from 1.05 to 10.
//
// Errors: units.ErrMissing, units.ErrRange and units.ErrConflict, as the fields,
// "voltage" and "frequency" of the motor under "motor.".
//
// Source: M. Kloss, "Drehmoment und Schlüpfung des Drehstrommotors", Archiv für
// Elektrotechnik 5, 1916, exact without stator resistance; affinity laws for
// the fan. A single-phase motor follows it nearly.
func (m FanMotor) At(voltage units.Voltage, frequency units.Frequency) (FanState, error) {
	var p problems
	v := p.required("motor.voltage", float64(m.Voltage), minVoltage, maxVoltage, inVolts)
	f := p.required("motor.frequency", float64(m.Frequency), 1, maxFrequency, inHertz)
	p.poles("motor.poles", m.Poles)
	p.required("motor.speed", float64(m.Speed), 1, maxSpeed, inRadiansPerSecond)
	p.required("motor.breakdown", float64(m.Breakdown), 1.05, 10, ratio("times the rated torque"))
	if v {
		p.required("voltage", float64(voltage), 0.1*float64(m.Voltage), 2*float64(m.Voltage), inVolts)
	}
	if f {
		p.required("frequency", float64(frequency), 0.2*float64(m.Frequency), 2*float64(m.Frequency), inHertz)
	}
	if err := p.err(); err != nil {
		return FanState{}, err
	}
	rated := float64(m.Frequency) * 4 * math.Pi / float64(m.Poles)
	nr, mb := float64(m.Speed), float64(m.Breakdown)
	if slip := rated - nr; !(slip > 1e-6*rated && slip < 0.5*rated) {
		p.conflict("motor.speed", m.Speed, "less than the synchronous speed "+units.RotationalSpeed(rated).String()+", and more than half of it")
		return FanState{}, p.err()
	}
	db := (rated - nr) * (mb + math.Sqrt(mb*mb-1))
	flux := float64(voltage) / float64(m.Voltage) * float64(m.Frequency) / float64(frequency)
	ns := rated * float64(frequency) / float64(m.Frequency)
	tb := flux * flux * mb
	surplus := func(d float64) (float64, float64) { return fanSurplus(d, db, tb, ns, nr) }

	hi := min(db, ns)
	if f, _ := surplus(hi); f < 0 {
		return FanState{}, nil
	}
	// Beside the rated point the slip goes with the torque over the flux squared.
	d, _, err := root.Safeguarded(surplus, 0, hi, min((rated-nr)/(flux*flux), hi/2), 0, 0)
	if err != nil {
		return FanState{}, err
	}
	n := ns - d
	return FanState{
		Speed: units.RotationalSpeed(n),
		Slip:  units.Ratio(d / ns),
		Air:   units.Ratio(n / nr),
		Power: units.Ratio(n / nr * (n / nr) * (ns / rated)),
		Holds: true,
	}, nil
}

// fanSurplus is the torque of the motor over that of the fan at slip speed d, in
// rated torques, and its derivative. tb is the greatest torque of the motor.
func fanSurplus(d, db, tb, ns, nr float64) (f, df float64) {
	n := (ns - d) / nr
	q := d*d + db*db
	return 2*tb*d*db/q - n*n, 2*tb*db*(db*db-d*d)/(q*q) + 2*n/nr
}
