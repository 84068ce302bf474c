package vacuum

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// A Plant is the air side of a recovery unit: tool, hose, tank and motors.
type Plant struct {
	Air    Air    // outside, at the tool and behind the motors
	Liquid Liquid // what is picked up; may be left out where no water is
	Motors Bank

	// Hoses is how many equal recovery hoses work side by side. None: every hose is
	// closed by its valve, and only Bleed lets air in.
	Hoses int

	// Path is what the air and the water of one hose pass, from the tool to the
	// tank. Empty: the tank stands open.
	Path []Element

	// Bleed is a hole through which air enters the tank by another way: a leak, a
	// valve left open. Without an area there is none.
	Bleed Opening

	// Duct is what the air of all hoses passes between tank and motors, such as the
	// filter. The water stays in the tank.
	Duct []Element
}

// A Regime says how the water travels.
type Regime uint8

// Regimes of a recovery hose.
const (
	Still    Regime = iota // no air moves: no motor runs, or every way in is closed
	Dry                    // air alone
	Carried                // the air is fast enough to carry the water steadily
	Slugging               // the water gathers into slugs: it comes, but in gulps
	FallBack               // the motors do not lift this much water: it stays in the hose
)

var regimeNames = [...]string{"still", "dry", "carried", "slugging", "fall-back"}

// String returns the regime as a word.
func (r Regime) String() string {
	if int(r) < len(regimeNames) {
		return regimeNames[r]
	}
	return "unknown regime"
}

// An Operation is where motors, hose and water settle. Vacua are differences from
// the air outside.
type Operation struct {
	Regime Regime

	Water   units.VolumeFlow // that arrives in the tank, all hoses together
	Air     units.MassFlow   // through all hoses
	Bleed   units.MassFlow   // through the other hole
	Drawn   units.MassFlow   // by the motors: the sum of the two
	FreeAir units.VolumeFlow // Air as a volume of outside air: what a tester at the tool reads

	Tool   units.Pressure // vacuum at the tool's end of the first hose
	Tank   units.Pressure // vacuum in the tank
	Motors units.Pressure // vacuum at the motors, the lift they make

	Velocity units.Velocity // of the air in the widest hose, as outside air alone in its bore: the slowest place
	Carry    units.Velocity // what [CarryVelocity] asks for; zero without a liquid

	Steps []Step      // one for each element of Path, then of Duct
	Load  units.Power // electrical, of the motors; zero where their plates give no powers
}

// A Step is what one element costs.
type Step struct {
	Loss     units.Pressure
	Vacuum   units.Pressure    // behind it
	Velocity units.Velocity    // of the air where it leaves a hose, as if alone in the bore; zero for other elements
	Reynolds float64           // of the air alone in a hose
	Friction hydraulics.Regime // of the air alone in a hose
}

// A rig is a plant as numbers.
type rig struct {
	g      gas
	bank   Bank
	n      float64
	path   []piece
	duct   []piece
	bleed  float64 // Δp = bleed ṁ² v; zero without a hole
	widest float64 // area of the widest hose, m²
	open   float64 // kg/s of the bank with no lift; zero where nothing runs
	flow   flow    // liquid numbers, spread 1
	direct bool    // see direct.go
	hose   int     // of path, where direct
	stream stream  // in it
	bad    problem.List
}

func (p *Plant) compile(wet bool) (*rig, error) {
	r := new(rig)
	return r, p.compileInto(r, wet)
}

func (p *Plant) compileInto(r *rig, wet bool) error {
	r.bad = r.bad[:0]
	bad := &r.bad
	if err := p.Air.Validate(); err != nil {
		bad.Take("air", err)
		return bad.Join()
	}
	g, err := p.Air.gas()
	if err != nil {
		return units.At("air", err)
	}
	if wet || p.Liquid.Given() {
		bad.Take("liquid", p.Liquid.Validate())
	}
	bad.Take("motors", p.Motors.Validate())
	problem.Whole(bad, "hoses", p.Hoses, 0, maxCount)
	*r = rig{g: g, bank: p.Motors, n: float64(p.Hoses), path: r.path[:0], duct: r.duct[:0], bad: r.bad}
	r.path = compile(bad, "path", &r.g, p.Path, r.path)
	if p.Bleed != (Opening{}) {
		r.bleed = p.Bleed.compile(bad, "bleed", &r.g).c2
	}
	r.duct = compile(bad, "duct", &r.g, p.Duct, r.duct)
	if err := bad.Join(); err != nil {
		return err
	}
	for i := range r.path {
		if r.path[i].hose {
			r.widest = math.Max(r.widest, r.path[i].tube.area)
		}
	}
	r.flow = flow{spread: 1}
	if p.Liquid.Given() {
		r.flow.vl = 1 / float64(p.Liquid.Density)
		r.flow.mul = float64(p.Liquid.Viscosity)
		r.flow.drift = drift(float64(p.Liquid.Density), g.rho, float64(p.Liquid.SurfaceTension))
	}
	return r.equip()
}

// equip works out what depends on motors and duct.
func (r *rig) equip() (err error) {
	r.open = 0
	if r.bank.running() {
		if r.open, err = r.bank.open(&r.g); err != nil {
			return err
		}
	}
	if r.hose, r.direct = r.onlyHose(); r.direct && r.stream.tube == nil {
		f := r.start()
		r.stream = r.path[r.hose].tube.stream(&f)
	}
	return nil
}

// start returns a flow of nothing, with the numbers of air and liquid.
func (r *rig) start() flow {
	f := r.flow
	f.g = &r.g
	return f
}

// A balance is one trial of a flow of air and water.
type balance struct {
	tank, motors float64 // pressures, Pa
	bleed, drawn float64 // kg/s
	surplus      float64 // of the motors' vacuum over what the flow needs, Pa; −Inf where it cannot pass
}

// try passes air and water (kg/s, each hose) and holds the vacuum it needs against
// the lift that the motors have left.
func (r *rig) try(f *flow) (b balance) {
	b.surplus = math.Inf(-1)
	b.tank = r.g.p
	if r.n > 0 {
		var ok bool
		if b.tank, ok = along(r.path, f, r.g.p, nil); !ok {
			return b
		}
	}
	if r.bleed > 0 {
		b.bleed = r.bled(b.tank)
	}
	b.drawn = r.n*f.air + b.bleed
	all := flow{g: &r.g, air: b.drawn, spread: 1}
	var ok bool
	if b.motors, ok = along(r.duct, &all, b.tank, nil); !ok {
		return b
	}
	b.surplus = b.motors - (r.g.p - r.bank.lift(&r.g, b.drawn))
	return b
}

// bled is the air that the hole lets in: Δp = bleed ṁ² v at the mean density.
func (r *rig) bled(tank float64) float64 {
	return math.Sqrt(math.Max(r.g.p*r.g.p-tank*tank, 0) / (2 * r.bleed * r.g.rt))
}

// shut settles a plant whose hoses pass nothing.
func (r *rig) shut() (balance, error) {
	if r.open == 0 {
		return balance{tank: r.g.p, motors: r.g.p}, nil
	}
	if r.bleed == 0 {
		p := r.g.p - r.bank.lift(&r.g, 0)
		return balance{tank: p, motors: p}, nil
	}
	at := func(tank float64) (b balance) {
		b.tank, b.bleed = tank, r.bled(tank)
		b.drawn = b.bleed
		all := flow{g: &r.g, air: b.drawn, spread: 1}
		var ok bool
		b.surplus = math.Inf(-1)
		if b.motors, ok = along(r.duct, &all, tank, nil); ok {
			b.surplus = b.motors - (r.g.p - r.bank.lift(&r.g, b.drawn))
		}
		return b
	}
	low := r.g.p - r.bank.lift(&r.g, 0)
	tank, _, err := root.Bracketed(func(p float64) float64 { return at(p).surplus }, low, r.g.p, 0)
	return at(tank), err
}

// settle returns the greatest flow of air, kg/s in each hose, at which the motors
// carry the given water. ok is false where there is none: fall-back.
func (r *rig) settle(f *flow) (ok bool, err error) {
	surplus := func(air float64) float64 {
		f.air = air
		return r.try(f).surplus
	}
	top := r.open / r.n
	if f.liquid == 0 {
		f.air, _, err = root.Near(surplus, 0.5*top, 0.6*top, 0, top, 1e-10*top)
		return err == nil, err
	}
	// With water the vacuum needed has a least value: below it the riser fills,
	// above it friction grows. The flow settles on the far side of that.
	const steps = 16
	above, least := top, math.Inf(-1)
	best, most := 0.0, math.Inf(-1)
	for i := steps - 1; i >= 0; i-- {
		x := top * square(float64(i)/steps)
		s := surplus(x)
		if s > 0 {
			f.air, _, err = root.NearFrom(surplus, x, s, above, least, x, above, 1e-10*top)
			return err == nil, err
		}
		if s > most {
			best, most = x, s
		}
		above, least = x, s
	}
	if math.IsInf(most, -1) {
		return false, nil
	}
	// No sample passes. Look between the neighbours of the best one.
	i := math.Sqrt(best / top * steps * steps)
	lo, hi := top*square(math.Max(i-1, 0)/steps), top*square((i+1)/steps)
	const golden = 0.6180339887498949
	for range 60 {
		a, b := hi-golden*(hi-lo), lo+golden*(hi-lo)
		sa, sb := surplus(a), surplus(b)
		if x := a; math.Max(sa, sb) > 0 {
			if sb > sa {
				x = b
			}
			f.air, _, err = root.Bracketed(surplus, x, hi, 1e-14*top)
			return err == nil, err
		}
		if sa > sb {
			hi = b
		} else {
			lo = a
		}
		if !(hi-lo > 1e-9*top) {
			break
		}
	}
	return false, nil
}

// Operate returns where the plant settles when the tools take up a flow of water,
// all hoses together; zero is the dry plant.
//
// The air is drawn until what tool, hoses, riser and filter cost equals the lift
// that the motors still make at that flow. With water in a riser there are two
// such flows; the greater is stable and is the one returned. Where even the
// flow that needs the least vacuum needs more than the motors have, the regime is
// [FallBack]: the water stays in the hose and closes it, and the numbers are those
// of a plant with closed hoses.
//
// Errors: a *[units.FieldError] for an input; ErrMissing for the liquid where there
// is water; ErrConflict for water with every hose closed.
func (p Plant) Operate(water units.VolumeFlow) (Operation, error) {
	r, err := p.compile(water != 0)
	if err != nil {
		return Operation{}, err
	}
	return p.operate(r, water, 0, true)
}

// A Fitted plant is one that was checked once, for several questions. It is for one
// goroutine at a time. The zero Fitted takes a plant with Refit.
type Fitted struct {
	plant Plant
	rig   rig

	// What was asked already, and is where the next answer is looked for.
	dry    float64 // air of each hose without water, kg/s; zero: not asked
	carry  units.Velocity
	picked bool
	pick   PickUp // at carry
}

// Fit checks a plant with its liquid; see [Plant.Operate] for the errors.
func (p Plant) Fit() (*Fitted, error) {
	f := new(Fitted)
	if err := f.Refit(p); err != nil {
		return nil, err
	}
	return f, nil
}

// Refit checks another plant, in the memory that f has. What the plant points to must
// not change while f is used.
func (f *Fitted) Refit(p Plant) error {
	f.plant, f.dry, f.picked = p, 0, false
	if err := f.plant.compileInto(&f.rig, true); err != nil {
		return err
	}
	f.carry = units.Velocity(kutateladze(3.1, f.rig.g.rho, float64(p.Liquid.Density), float64(p.Liquid.SurfaceTension)))
	return nil
}

// Equip gives the plant that f holds other motors and another duct.
func (f *Fitted) Equip(motors Bank, duct []Element) error {
	f.plant.Motors, f.plant.Duct, f.dry, f.picked = motors, duct, 0, false
	r := &f.rig
	r.bad = r.bad[:0]
	r.bad.Take("motors", motors.Validate())
	r.duct = compile(&r.bad, "duct", &r.g, duct, r.duct[:0])
	if err := r.bad.Join(); err != nil {
		return err
	}
	r.bank = motors
	return r.equip()
}

// Operate is [Plant.Operate] without the steps.
func (f *Fitted) Operate(water units.VolumeFlow) (Operation, error) {
	op, err := f.plant.operate(&f.rig, water, f.near(water), false)
	if water == 0 {
		f.dry = float64(op.Air) / math.Max(f.rig.n, 1)
	}
	return op, err
}

// near is where the air of each hose is looked for that goes with a flow of water:
// what each kilogram of air takes of the hose's time grows about evenly from the dry
// hose over the pick-up. It depends on the plant and the water alone, not on what was
// asked before.
func (f *Fitted) near(water units.VolumeFlow) float64 {
	r := &f.rig
	if !(water > 0) || !r.direct || r.open == 0 {
		return 0
	}
	if f.dry == 0 {
		if _, err := f.Operate(0); err != nil {
			return 0
		}
	}
	pick, err := f.PickUp(f.carry)
	if err != nil || !(f.dry > 0 && pick.Rate > 0) {
		return 0
	}
	slow := 1/(float64(f.carry)*r.g.rho*r.widest) - 1/f.dry
	return 1 / (1/f.dry + slow*float64(water/pick.Rate))
}

// PickUp is [Plant.PickUp] without Drowned, which costs as much again as a quarter of
// the rest.
func (f *Fitted) PickUp(speed units.Velocity) (PickUp, error) {
	if speed != f.carry {
		return f.plant.pickUp(&f.rig, speed, false)
	}
	if !f.picked {
		var err error
		if f.pick, err = f.plant.pickUp(&f.rig, speed, false); err != nil {
			return f.pick, err
		}
		f.picked = true
	}
	return f.pick, nil
}

// operate is Operate of a compiled plant. Near is the air of each hose, kg/s, at which
// it is looked for first; zero: nobody knows.
func (p *Plant) operate(r *rig, water units.VolumeFlow, near float64, steps bool) (Operation, error) {
	var err error
	var bad problem.List
	problem.Between(&bad, "water", water, 0, maxFlow)
	if water > 0 && p.Hoses == 0 {
		bad.Add("hoses", "", "one hose or more, for the water", units.ErrConflict)
	}
	if err := bad.Join(); err != nil {
		return Operation{}, err
	}
	var op Operation
	if p.Liquid.Given() {
		op.Carry = units.Velocity(kutateladze(3.1, r.g.rho, float64(p.Liquid.Density), float64(p.Liquid.SurfaceTension)))
	}
	f := r.start()
	var b balance
	moves, direct := r.open > 0 && p.Hoses > 0, false
	if moves {
		f.liquid = float64(water) / (r.n * math.Max(r.flow.vl, 1e-9))
		if water == 0 {
			f.liquid = 0
		}
		if direct = r.direct && r.settleDirect(&f, near); !direct {
			if moves, err = r.settle(&f); err != nil {
				return Operation{}, err
			}
		}
	}
	if moves {
		b = r.balance(&f, direct)
		op.Water = water
	} else {
		if b, err = r.shut(); err != nil {
			return Operation{}, err
		}
		f = flow{g: &r.g, spread: 1}
		op.Regime = Still
		if water > 0 {
			op.Regime = FallBack
		}
	}
	r.fill(&op, &f, b, p.Hoses, steps)
	switch {
	case !moves:
	case water == 0:
		op.Regime = Dry
	case op.Velocity < op.Carry:
		op.Regime = Slugging
	default:
		op.Regime = Carried
	}
	return op, nil
}

// fill writes a balance into an operation.
func (r *rig) fill(op *Operation, f *flow, b balance, hoses int, steps bool) {
	op.Air = units.MassFlow(r.n * f.air)
	op.Bleed = units.MassFlow(b.bleed)
	op.Drawn = units.MassFlow(b.drawn)
	op.FreeAir = units.VolumeFlow(r.n * f.air / r.g.rho)
	op.Tank = units.Pressure(r.g.p - b.tank)
	op.Motors = units.Pressure(r.g.p - b.motors)
	if r.widest > 0 {
		op.Velocity = units.Velocity(f.air / (r.g.rho * r.widest))
	}
	if r.bank.running() {
		op.Load = units.Power(r.bank.load(&r.g, b.drawn))
	}
	op.Tool = op.Tank
	still := hoses == 0 || f.air+f.liquid == 0
	if !still {
		p := r.g.p
		for i := range r.path {
			if r.path[i].hose {
				op.Tool = units.Pressure(r.g.p - p)
				break
			}
			p, _ = r.path[i].pass(f, p)
		}
	}
	if !steps {
		return
	}
	op.Steps = make([]Step, 0, len(r.path)+len(r.duct))
	p := r.g.p
	step := func(c *piece, f *flow) {
		behind := p
		if f.air+f.liquid > 0 {
			behind, _ = c.pass(f, p)
		}
		s := Step{Loss: units.Pressure(p - behind), Vacuum: units.Pressure(r.g.p - behind)}
		if c.hose {
			s.Velocity = units.Velocity(f.air * r.g.rt / (behind * c.tube.area))
			s.Reynolds, s.Friction = c.tube.reynolds(f), c.tube.regime(f)
		}
		op.Steps = append(op.Steps, s)
		p = behind
	}
	for i := range r.path {
		step(&r.path[i], f)
	}
	p = b.tank
	all := flow{g: &r.g, air: b.drawn, spread: 1}
	for i := range r.duct {
		step(&r.duct[i], &all)
	}
}
