package tank

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A LineKind says what follows a pump's pulses: the mass of the whole suction line,
// or little of it.
type LineKind uint8

const (
	// StiffPipe: the whole length of the line is pushed and pulled.
	StiffPipe LineKind = iota + 1

	// CompliantHose: the hose gives way near the pump, and only its end moves with
	// the pulses.
	CompliantHose

	// Stabilised: a suction stabiliser at the pump gives way instead.
	Stabilised
)

var lineNames = [...]string{"no line", "stiff pipe", "compliant hose", "stabilised"}

// String returns the kind in words.
func (k LineKind) String() string {
	if int(k) < len(lineNames) {
		return lineNames[k]
	}
	return "unknown line"
}

// A Pulsation is what a plunger pump asks of its suction line besides the mean
// flow. The zero Pulsation is none: a centrifugal pump.
type Pulsation struct {
	Plungers int // single-acting
	Speed    units.RotationalSpeed
	Line     LineKind
	Bore     units.Length
	Length   units.Length // of a stiff pipe

	// Moved is the length that moves with the pulses in a compliant or stabilised
	// line: between stabiliser and pump, or the last stretch of a hose. There is no
	// formula for it; [TypicalMoved] is a band.
	Moved units.Length

	// Liquid is K of the formula: 1.4 for nearly incompressible liquid (water
	// without air), 1.5 for most liquids, 2.0 for hydrocarbons, 2.5 for compressible
	// ones.
	Liquid float64
}

// Given reports whether any part of the pulsation was set.
func (p Pulsation) Given() bool { return p != Pulsation{} }

func (p Pulsation) check(bad *problem.List) {
	if !p.Given() {
		return
	}
	problem.Number(bad, "pulsation.plungers", float64(p.Plungers), 1, 99)
	problem.Within(bad, "pulsation.speed", p.Speed, 1e-3, 1e4)
	if p.Line < StiffPipe || p.Line > Stabilised {
		bad.Add("pulsation.line", "", "stiff pipe, compliant hose or stabilised", units.ErrMissing)
	}
	problem.Within(bad, "pulsation.bore", p.Bore, minBore, maxBore)
	if p.Line == StiffPipe {
		problem.Within(bad, "pulsation.length", p.Length, 1e-3, maxLength)
	} else {
		problem.Within(bad, "pulsation.moved", p.Moved, 1e-3, maxLength)
		if p.Length != 0 && p.Moved > p.Length {
			bad.Add("pulsation.moved", p.Moved.String(), "at most the length of the line, "+p.Length.String(), units.ErrConflict)
		}
	}
	if p.Liquid == 0 {
		bad.Add("pulsation.liquid", "", "1.4 for water without air, 1.5 for most liquids", units.ErrMissing)
	} else {
		problem.Number(bad, "pulsation.liquid", p.Liquid, 1, 5)
	}
}

// Head returns the head that the pulses of the pump cost at a mean flow: that of
// [AccelerationHead] over the length that moves.
func (p Pulsation) Head(q units.VolumeFlow) (units.Length, error) {
	var bad problem.List
	p.check(&bad)
	if !p.Given() {
		bad.Add("pulsation", "", "plungers, speed, line, bore, length and liquid", units.ErrMissing)
	}
	problem.Between(&bad, "flow", q, 0, maxFlow)
	if err := bad.Join(); err != nil {
		return 0, err
	}
	l := p.Length
	if p.Line != StiffPipe {
		l = p.Moved
	}
	v := float64(q) / (math.Pi / 4 * square(float64(p.Bore)))
	return AccelerationHead(l, units.Velocity(v), p.Speed, AccelerationConstant(p.Plungers), p.Liquid)
}

// AccelerationHead returns the head that moves the water of a stiff suction line
// along with the pulses of a plunger pump.
//
//	h_a = L V N C / (K g)
//
// L is the length, V the mean velocity in the line, N the speed of the crank in
// revolutions a minute, C the constant of [AccelerationConstant], K that of the
// liquid (see [Pulsation]). In a compliant hose or behind a stabiliser L is the
// little that still moves. A value near or above the atmosphere (34 ft) is no
// measure of anything: it calls for a stabiliser, a larger bore or a shorter line.
//
// Range: lines so short that the pulse runs through them within the stroke, 50 ft.
//
// Source: ANSI/HI 6.1–6.5, and API 674, reciprocating pumps.
func AccelerationHead(length units.Length, v units.Velocity, speed units.RotationalSpeed, constant, liquid float64) (units.Length, error) {
	var p problem.List
	problem.Between(&p, "length", length, 0, maxLength)
	problem.Between(&p, "velocity", v, 0, 1e6)
	problem.Between(&p, "speed", speed, 0, 1e4)
	problem.Number(&p, "constant", constant, 0, 10)
	problem.Number(&p, "liquid", liquid, 1, 5)
	if err := p.Join(); err != nil {
		return 0, err
	}
	// C turns revolutions a minute into what the seconds of V and g ask for; lengths
	// may be in any one unit.
	h := float64(length) * float64(v) * speed.In(units.RPM) * constant / (liquid * gravity)
	return units.Length(h), nil
}

// AccelerationConstant returns C of [AccelerationHead] for a pump with n
// single-acting plungers: 0.400 simplex, 0.200 duplex, 0.066 triplex, 0.040
// quintuplex, 0.028 septuplex, 0.022 nonuplex. For other numbers, which have no
// entry in the standard, it is that of [PlungerConstant] with a connecting rod of
// five cranks, which comes within 1.5 % of the printed values.
//
// Source: ANSI/HI 6.1–6.5 and API 674; nonuplex from memory.
//
// Special cases: NaN for n below 1.
func AccelerationConstant(n int) float64 {
	switch n {
	case 1:
		return 0.400
	case 2:
		return 0.200
	case 3:
		return 0.066
	case 5:
		return 0.040
	case 7:
		return 0.028
	case 9:
		return 0.022
	}
	return PlungerConstant(n, 0.2)
}

// PlungerConstant returns C of [AccelerationHead] from the motion of the plungers.
//
//	C = (1 + λ) · m · 2 π²/(60 n),  m = greatest slope of Σ max(0, sin(θ + 2 π k/n))
//
// n plungers, evenly spaced, lift each for half a turn; λ is crank over connecting
// rod, 0 for an endless rod. The slope is greatest where a plunger sets out: 1/2 for
// an odd number of three or more, 1 for one and for an even number. So a pump of four
// plungers pulses harder than one of three.
//
// Source: kinematics of the slider crank, to the first order in λ.
//
// Special cases: NaN for n below 1 and for a NaN.
func PlungerConstant(n int, lambda float64) float64 {
	if n < 1 {
		return math.NaN()
	}
	m := 1.0
	if n >= 3 && n%2 == 1 {
		m = 0.5
	}
	return (1 + lambda) * m * 2 * math.Pi * math.Pi / (60 * float64(n))
}

// A Band is a plausible interval of an input that nobody has.
type Band struct {
	Low, Usual, High units.Length
	Source           string
}

// TypicalMoved is how much of a compliant or stabilised line moves with the pulses.
func TypicalMoved() Band {
	return Band{Low: 1 * units.Foot, Usual: 1.5 * units.Foot, High: 2 * units.Foot,
		Source: "the last foot or two before the pump, common practice"}
}
