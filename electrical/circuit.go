package electrical

import (
	"math"

	"example.com/washrig/units"
)

// A Circuit is a run of conductors from a supply to a load and back.
type Circuit struct {
	Conductor   Conductor
	Length      units.Length              // one way
	Temperature units.Temperature         // of the conductor under load
	Supply      units.Voltage             // at the beginning, held; line to line if three-phase
	ThreePhase  bool                      // else two wires, alternating or direct current
	Reactance   units.ResistancePerLength // of one conductor, one way; zero: not looked at
}

// A Drop is what a circuit takes from the voltage.
type Drop struct {
	Resistance units.Resistance // of the way there and back; of one conductor if three-phase
	Current    units.Current
	Lost       units.Voltage // Supply − AtLoad
	Share      units.Ratio   // Lost/Supply
	AtLoad     units.Voltage
	Heat       units.Power // in all conductors
}

const (
	maxVoltage = 1e4 // V
	maxCurrent = 1e5 // A
	maxLength  = 1e4 // m
	minVoltage = 1   // V
	minCurrent = 1e-6
)

// rx returns resistance and reactance of the path in series with the load and
// the voltage across both, per phase.
func (c Circuit) rx(p *problems) (r, x, v float64) {
	perLength := c.Conductor.resistance(p, "conductor.gauge", "conductor.material", "temperature", c.Temperature)
	p.within("length", float64(c.Length), 0, maxLength, inMeters)
	p.required("supply", float64(c.Supply), minVoltage, maxVoltage, inVolts)
	p.within("reactance", float64(c.Reactance), 0, maxPerLength, inOhmsPerMeter)
	ways := 2.0
	v = float64(c.Supply)
	if c.ThreePhase {
		ways, v = 1, v/math.Sqrt(3)
	}
	l := ways * float64(c.Length)
	return perLength * l, float64(c.Reactance) * l, v
}

func (c *Circuit) drop(r, v, load, current float64) Drop {
	wires, line := 1.0, 1.0 // r holds both wires of a single-phase circuit
	if c.ThreePhase {
		wires, line = 3, math.Sqrt(3)
	}
	return Drop{
		Resistance: units.Resistance(r),
		Current:    units.Current(current),
		Lost:       units.Voltage(line * (v - load)),
		Share:      units.Ratio((v - load) / v),
		AtLoad:     units.Voltage(line * load),
		Heat:       units.Power(wires * current * current * r),
	}
}

// Drop returns the voltage that is left at a load which draws a given current
// whatever its voltage:
//
//	V_load = √(V² − I²·(X cos φ − R sin φ)²) − I·(R cos φ + X sin φ)
//
// R and X are those of the way there and back, of one conductor in a
// three-phase circuit, where V is the voltage to neutral. At power factor one
// and without reactance the loss is the familiar 2·L·R·I of a single-phase
// circuit. The power factor is the load's, lagging; one for direct current.
//
// Errors: units.ErrMissing and units.ErrRange, paths "conductor.gauge",
// "length", "temperature", "supply", "reactance", "current", "powerFactor"; a
// current that would leave no voltage at the load is out of range.
//
// Source: phasor diagram of a line with a lagging load, in any textbook; the
// second term alone is the voltage drop of NEC Chapter 9 Table 9, note 2.
func (c Circuit) Drop(current units.Current, powerFactor units.Ratio) (Drop, error) {
	var p problems
	r, x, v := c.rx(&p)
	p.within("current", float64(current), 0, maxCurrent, inAmperes)
	p.share("powerFactor", powerFactor)
	if err := p.err(); err != nil {
		return Drop{}, err
	}
	load := voltageAtLoad(v, float64(current), r, x, float64(powerFactor))
	if !(load > 0) {
		p.rangef("current", current, "less than the conductors can pass at this voltage")
		return Drop{}, p.err()
	}
	return c.drop(r, v, load, float64(current)), nil
}

func voltageAtLoad(v, i, r, x, cos float64) float64 {
	sin := math.Sqrt(1 - cos*cos)
	across := i * (x*cos - r*sin)
	return math.Sqrt((v-across)*(v+across)) - i*(r*cos+x*sin)
}

// A Wire is a [Circuit] whose conductors were checked once, for many supplies and
// currents. Its value does not change.
type Wire struct {
	circuit Circuit
	r, x    float64 // of the path in series with the load, Ω
}

// Wire checks the conductors of a circuit.
//
// Errors: those of [Circuit.Drop] but of "supply", "current" and "powerFactor".
func (c Circuit) Wire() (Wire, error) {
	var p problems
	c.Supply = minVoltage // of each question
	r, x, _ := c.rx(&p)
	return Wire{c, r, x}, p.err()
}

// Drop is [Circuit.Drop] of the circuit with a supply.
//
// Errors: those of Circuit.Drop.
func (w *Wire) Drop(supply units.Voltage, current units.Current, powerFactor units.Ratio) (Drop, error) {
	if supply >= minVoltage && supply <= maxVoltage && current >= 0 && current <= maxCurrent && powerFactor >= minShare && powerFactor <= 1 {
		v := w.across(supply)
		if load := voltageAtLoad(v, float64(current), w.r, w.x, float64(powerFactor)); load > 0 {
			return w.circuit.drop(w.r, v, load, float64(current)), nil
		}
	}
	c := w.circuit
	c.Supply = supply
	return c.Drop(current, powerFactor) // which says what is wrong
}

// StartDrop is [Circuit.StartDrop] of the circuit with a supply.
//
// Errors: those of Circuit.StartDrop.
func (w *Wire) StartDrop(supply units.Voltage, current units.Current, atVoltage units.Voltage, powerFactor units.Ratio) (Drop, error) {
	if !(supply >= minVoltage && supply <= maxVoltage && current >= minCurrent && current <= maxCurrent && atVoltage >= minVoltage && atVoltage <= maxVoltage && powerFactor >= minShare && powerFactor <= 1) {
		c := w.circuit
		c.Supply = supply
		return c.StartDrop(current, atVoltage, powerFactor) // which says what is wrong
	}
	return w.circuit.startDrop(w.r, w.x, w.across(supply), current, atVoltage, powerFactor), nil
}

// across returns the voltage across path and load.
func (w *Wire) across(supply units.Voltage) float64 {
	if w.circuit.ThreePhase {
		return float64(supply) / math.Sqrt(3)
	}
	return float64(supply)
}

// StartDrop returns the voltage that is left at a motor while it starts. A motor
// at rest is an impedance: lower voltage, less current.
//
//	V_load = V · |Z| / |Z + R + jX|,   Z = V_n/I_s at the angle of the power factor
//
// current is what the motor draws while starting at the voltage atVoltage, line
// to line if three-phase, and powerFactor its power factor then. The result's
// Current is what it draws behind the conductors.
//
// Errors: as of [Circuit.Drop], and of "atVoltage".
//
// Source: voltage divider.
func (c Circuit) StartDrop(current units.Current, atVoltage units.Voltage, powerFactor units.Ratio) (Drop, error) {
	var p problems
	r, x, v := c.rx(&p)
	p.required("current", float64(current), minCurrent, maxCurrent, inAmperes)
	p.required("atVoltage", float64(atVoltage), minVoltage, maxVoltage, inVolts)
	p.share("powerFactor", powerFactor)
	if err := p.err(); err != nil {
		return Drop{}, err
	}
	return c.startDrop(r, x, v, current, atVoltage, powerFactor), nil
}

func (c *Circuit) startDrop(r, x, v float64, current units.Current, atVoltage units.Voltage, powerFactor units.Ratio) Drop {
	nominal := float64(atVoltage)
	if c.ThreePhase {
		nominal /= math.Sqrt(3)
	}
	z := nominal / float64(current)
	i := v / seriesImpedance(z, float64(powerFactor), r, x)
	return c.drop(r, v, i*z, i)
}

// seriesImpedance returns |z∠φ + r + jx|.
func seriesImpedance(z, cos, r, x float64) float64 {
	re, im := z*cos+r, z*math.Sqrt(1-cos*cos)+x // at most 1e10 Ω
	return math.Sqrt(re*re + im*im)
}
