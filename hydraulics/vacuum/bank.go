package vacuum

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// A Stage is a number of equal motors side by side: at one lift their flows add.
// A motor that stands still is taken as shut off by its flap; without one it is a
// hole in the tank.
type Stage struct {
	Blower  *Blower
	Running int // motors that run; none makes no lift
}

// A Bank is the motors of one recovery tank, stage behind stage from the tank to
// the outlet. One stage is the rule. In two the lifts add, a little short of
// twice: the stage next to the tank delivers into thinner air.
type Bank []Stage

// Parallel returns n motors side by side.
func Parallel(b *Blower, n int) Bank { return Bank{{b, n}} }

// Series returns n motors one behind another.
func Series(b *Blower, n int) Bank {
	bank := make(Bank, max(n, 0))
	for i := range bank {
		bank[i] = Stage{b, 1}
	}
	return bank
}

// Validate returns every problem of the bank, joined in order.
func (b Bank) Validate() error {
	var p problem.List
	b.check(&p)
	return p.Join()
}

func (b Bank) check(p *problem.List) {
	if len(b) > maxCount {
		p.Add("", "", "at most 100 stages", units.ErrRange)
		return
	}
	for i, s := range b {
		if !s.Blower.made() {
			p.Add(problem.At("stages", i)+".blower", "", "a blower made by NewBlower", units.ErrMissing)
		}
		if s.Running < 0 || s.Running > maxCount {
			problem.Whole(p, problem.At("stages", i)+".running", s.Running, 0, maxCount)
		}
	}
}

// running reports whether every stage has a motor that runs. A stage without one
// is shut off by its flaps, and nothing passes.
func (b Bank) running() bool {
	for _, s := range b {
		if s.Running == 0 {
			return false
		}
	}
	return len(b) > 0
}

// lift returns the vacuum at the inlet of a running bank that passes m kg/s.
func (b Bank) lift(g *gas, m float64) float64 {
	p := g.p
	for i := len(b) - 1; i >= 0; i-- {
		rho := p / g.rt
		p -= b[i].Blower.lift(rho, m/(rho*float64(b[i].Running)))
		if !(p > 0) {
			return g.p
		}
	}
	return g.p - p
}

// open returns the mass flow of a running bank with no lift, kg/s.
func (b Bank) open(g *gas) (float64, error) {
	least, most := math.Inf(1), 0.0
	for _, s := range b {
		m := s.Blower.curve.open * float64(s.Running) * g.rho
		least, most = math.Min(least, m), math.Max(most, m)
	}
	if least == most {
		return least, nil
	}
	// A stage that is asked for more than its open flow holds the others back.
	m, _, err := root.Bracketed(func(m float64) float64 { return b.lift(g, m) }, least*0.5, most*1.001, 0)
	return m, err
}

// Lift returns the vacuum that the motors make together while they pass a flow of
// outside air.
//
// The stage at the outlet works against the outside air, each stage before it
// against the vacuum of the one behind: its lift and its flow are read at the
// density there, as [Blower.Lift] reads them outside. The air is taken as cooled
// to its first temperature between stages; in truth it leaves the first some tens
// of degrees warmer, and the second makes less lift by the ratio.
//
// Motors that stand still make none. Errors: a *[units.FieldError] for the air,
// the bank, or a flow beyond what the bank passes with no lift.
func (b Bank) Lift(outside Air, q units.VolumeFlow) (units.Pressure, error) {
	g, err := b.ready(outside)
	if err != nil {
		return 0, err
	}
	if !b.running() {
		var p problem.List
		problem.Between(&p, "flow", q, 0, 0)
		return 0, p.Join()
	}
	open, err := b.open(&g)
	if err != nil {
		return 0, err
	}
	var p problem.List
	problem.Between(&p, "flow", q, 0, open/g.rho*(1+1e-12))
	if err := p.Join(); err != nil {
		return 0, err
	}
	return units.Pressure(math.Max(b.lift(&g, float64(q)*g.rho), 0)), nil
}

func (b Bank) ready(outside Air) (gas, error) {
	var p problem.List
	p.Take("air", outside.Validate())
	b.check(&p)
	if err := p.Join(); err != nil {
		return gas{}, err
	}
	g, err := outside.gas()
	return g, units.At("air", err)
}

// OpenFlow returns the outside air that the motors pass with no lift.
func (b Bank) OpenFlow(outside Air) (units.VolumeFlow, error) {
	g, err := b.ready(outside)
	if err != nil || !b.running() {
		return 0, err
	}
	m, err := b.open(&g)
	return units.VolumeFlow(m / g.rho), err
}

// SealedLift returns the vacuum behind a closed inlet.
func (b Bank) SealedLift(outside Air) (units.Pressure, error) { return b.Lift(outside, 0) }

// Load returns the electrical power of the motors while they pass a flow of
// outside air.
//
//	centrifugal   P = [P_s + (P_o − P_s) q/q₀] ρ/ρ₀
//	displacement  P =  P_o + (P_s − P_o) h/h₀
//
// P_o and P_s are the powers at the open and the sealed end, q₀ the open flow, h₀
// the sealed lift. A wheel gives each kilogram the same work, and what it churns
// goes with density as well: power is a straight line in flow. A displacement
// blower carries its volume against the lift: power is a straight line in lift.
// So a plugged hose unloads the one and loads the other.
//
// Errors: as [Bank.Lift]; ErrMissing where a blower has no powers.
//
// Source: Euler's equation of turbomachines for radial blades; work of a constant
// displacement.
func (b Bank) Load(outside Air, q units.VolumeFlow) (units.Power, error) {
	if _, err := b.Lift(outside, q); err != nil {
		return 0, err
	}
	var bad problem.List
	for i, s := range b {
		if s.Blower.open == 0 && s.Running > 0 {
			bad.Add(problem.At("stages", i)+".blower.openPower", "", "the power at both ends", units.ErrMissing)
		}
	}
	if err := bad.Join(); err != nil {
		return 0, err
	}
	if !b.running() {
		return 0, nil
	}
	g, err := outside.gas()
	return units.Power(b.load(&g, float64(q)*g.rho)), err
}

// load returns the electrical power at m kg/s; zero where the plates have none.
func (b Bank) load(g *gas, m float64) float64 {
	p, sum := g.p, 0.0
	for i := len(b) - 1; i >= 0; i-- {
		n := float64(b[i].Running)
		rho := p / g.rt
		q := m / (rho * n)
		h := b[i].Blower.lift(rho, q)
		if b[i].Blower.open > 0 {
			sum += n * b[i].Blower.power(rho, q, h)
		}
		p -= h
	}
	return sum
}
