package hydraulics

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Part is the name and the plate of anything that holds the liquid. A rating
// that is not given is unknown, never unlimited.
type Part struct {
	Name           string
	MaxPressure    units.Pressure    // zero: not given
	MaxTemperature units.Temperature // zero: not given
}

// Plate returns p itself; every element has it by embedding Part.
func (p Part) Plate() Part { return p }

// An Element is one thing in a line that costs pressure or height. The set is
// closed: [Pipe], [Coil], [Fitting], [TwoK], [ThreeK], [EquivalentLength],
// [RatedLoss], [Filter], [CheckValve] and [StaticHeight]. Each may be given by value
// or by pointer.
type Element interface {
	Plate() Part
	element()
}

// A Pipe is a hose, pipe or straight tube of one bore. Its loss is that of
// Darcy and Weisbach,
//
//	Δp = f (L/d) ρ v²/2
//
// with the factor of [FrictionFactor].
type Pipe struct {
	Part
	Bore      units.Length
	Length    units.Length
	Roughness units.Length // absolute; zero is smooth, as rubber and drawn tube are
}

// Hose is another name for [Pipe]: friction does not know the difference.
type Hose = Pipe

// A Coil is a helically wound tube: a heating coil, or a hose on its reel. Its
// friction factor is that of [CoilFrictionFactor].
type Coil struct {
	Part
	Bore      units.Length // when clean
	Length    units.Length // of the tube, not of the helix
	Helix     units.Length // diameter of the helix, centre to centre of the tube
	Roughness units.Length // of the tube, or of the scale where there is any
	Scale     units.Length // thickness of scale on the wall; narrows the bore by twice this
}

// A Fitting loses a multiple of the velocity head in its own bore,
//
//	Δp = K ρ v²/2
type Fitting struct {
	Part
	K    float64
	Bore units.Length
}

// A StaticHeight is the climb from inlet to outlet; negative where the line
// descends.
//
//	Δp = ρ g h
type StaticHeight struct {
	Part
	Rise units.Length
}

// A RatedLoss is a measured or plated loss at a flow: reel, swivel and gun as
// their sheets give them. The loss is scaled to other flows by
//
//	Δp = Δp₀ [ (1−s) (ρ/ρ₀) (q/q₀)² + s (μ/μ₀) (q/q₀) ]
//
// q is the volume flow of the liquid as it passes, s the share of the loss that
// is laminar: zero, the default, for valves and passages, near one for a filter
// cake.
type RatedLoss struct {
	Part
	Flow     units.VolumeFlow
	Pressure units.Pressure
	Linear   units.Ratio // s; zero to one
	At       Fluid       // the liquid it was rated with; not given: that of the pump
}

// A CheckValve opens at its cracking pressure and then costs K velocity heads
// more.
type CheckValve struct {
	Part
	Cracking units.Pressure
	K        float64
	Bore     units.Length // needed where K is given
}

// An item is one element as numbers: Δp = c0 + c1 m + c2 m² + pipe(m), m in kg/s.
type item struct {
	c0, c1, c2 float64
	static     float64 // what of c0 is height
	invBore    float64 // 1/m; zero where the element has no bore of its own
	pipe       int     // index of its friction, or −1
}

// A builder turns the elements of one section into items.
type builder struct {
	w        *Workspace
	rho, mu  float64 // of the section
	invRho   float64
	invMu    float64
	ref      Fluid // of the pump
	section  int
	element  int
	curve    float64 // of the last coil
	curveEnd float64 // its coilLaminarEnd
	n        *Network
	problems problem.List
}

// fail begins the report of a bad element; it returns the prefix of the path.
func (b *builder) fail() string {
	return b.n.path(b.section) + ".elements[#" + problem.Format(float64(b.element+1)) + "]"
}

func (b *builder) report(p problem.List) {
	if p == nil {
		p.Add("", "", "", units.ErrRange)
	}
	b.problems = append(b.problems, units.At(b.fail(), p.Join()))
}

func (Pipe) element()         {}
func (Coil) element()         {}
func (Fitting) element()      {}
func (StaticHeight) element() {}
func (RatedLoss) element()    {}
func (CheckValve) element()   {}

// assemble turns an element, which may be given by value or by pointer, into an
// item.
func (b *builder) assemble(e Element) {
	switch e := e.(type) {
	case Pipe:
		b.pipe(&e)
	case Coil:
		b.coil(&e)
	case Fitting:
		b.fitting(&e)
	case StaticHeight:
		b.height(&e)
	case RatedLoss:
		b.rated(&e)
	case CheckValve:
		b.check(&e)
	case TwoK:
		b.twoK(&e)
	case ThreeK:
		b.threeK(&e)
	case EquivalentLength:
		b.equivalent(&e)
	case Filter:
		b.filter(&e)
	case *Pipe:
		if e != nil {
			b.pipe(e)
			return
		}
		b.missing()
	case *Coil:
		if e != nil {
			b.coil(e)
			return
		}
		b.missing()
	case *Fitting:
		if e != nil {
			b.fitting(e)
			return
		}
		b.missing()
	case *StaticHeight:
		if e != nil {
			b.height(e)
			return
		}
		b.missing()
	case *RatedLoss:
		if e != nil {
			b.rated(e)
			return
		}
		b.missing()
	case *CheckValve:
		if e != nil {
			b.check(e)
			return
		}
		b.missing()
	case *TwoK:
		if e != nil {
			b.twoK(e)
			return
		}
		b.missing()
	case *ThreeK:
		if e != nil {
			b.threeK(e)
			return
		}
		b.missing()
	case *EquivalentLength:
		if e != nil {
			b.equivalent(e)
			return
		}
		b.missing()
	case *Filter:
		if e != nil {
			b.filter(e)
			return
		}
		b.missing()
	default: // nil
		b.missing()
	}
}

// push lengthens s by a zero value and returns it.
func push[T any](s *[]T) *T {
	n := len(*s)
	if n == cap(*s) {
		*s = append(*s, *new(T))
	} else {
		*s = (*s)[:n+1]
		(*s)[n] = *new(T)
	}
	return &(*s)[n]
}

func (b *builder) missing() { b.problems.Add(b.fail(), "", "an element", units.ErrMissing) }

// add returns a new item, blank but for its pipe, which is none.
func (b *builder) add() *item {
	it := push(&b.w.items)
	it.pipe = -1
	return it
}

func goodBore(d units.Length) bool   { return d >= minBore && d <= maxBore }
func goodLength(l units.Length) bool { return l >= minLength && l <= maxLength }

func (p *Pipe) check(bad *problem.List) {
	within(bad, "bore", p.Bore, minBore, maxBore)
	within(bad, "length", p.Length, minLength, maxLength)
	atMost(bad, "roughness", p.Roughness, maxRoughness*float64(p.Bore))
}

func (b *builder) pipe(p *Pipe) {
	d := float64(p.Bore)
	if !(goodBore(p.Bore) && goodLength(p.Length) && p.Roughness >= 0 && float64(p.Roughness) <= maxRoughness*d) {
		var bad problem.List
		p.check(&bad)
		b.report(bad)
		return
	}
	b.tube(d, float64(p.Length), float64(p.Roughness), 0)
}

func (b *builder) coil(c *Coil) {
	d := float64(c.Bore - 2*c.Scale)
	if !(goodBore(c.Bore) && goodLength(c.Length) && d >= minBore && c.Scale >= 0 &&
		float64(c.Helix) >= minHelix*float64(c.Bore) && c.Helix <= maxLength &&
		c.Roughness >= 0 && float64(c.Roughness) <= maxRoughness*d) {
		var bad problem.List
		c.check(&bad)
		b.report(bad)
		return
	}
	b.tube(d, float64(c.Length), float64(c.Roughness), math.Sqrt(d/float64(c.Helix)))
}

func (c *Coil) check(bad *problem.List) {
	within(bad, "bore", c.Bore, minBore, maxBore)
	within(bad, "length", c.Length, minLength, maxLength)
	within(bad, "helix", c.Helix, minHelix*float64(c.Bore), maxLength)
	atMost(bad, "scale", c.Scale, (float64(c.Bore)-minBore)/2)
	atMost(bad, "roughness", c.Roughness, maxRoughness*float64(c.Bore-2*c.Scale))
}

// tube adds the friction of a round tube; curve is √(d/D), zero when straight.
func (b *builder) tube(d, l, e, curve float64) {
	const (
		toLoss = 8 / (math.Pi * math.Pi)
		toRe   = math.Pi / 4
	)
	inv := 1 / d
	inv2 := inv * inv
	perRe := toRe * b.mu * d // kg/s of one Reynolds number
	loss := toLoss * l * b.invRho * inv2 * inv2 * inv
	it := b.add()
	it.invBore, it.pipe = inv, len(b.w.pipes)
	p := push(&b.w.pipes)
	p.a = e * inv * (1 / 3.7)
	p.b = 2.51 * perRe
	p.loss = loss
	p.lam = 64 * loss * perRe
	p.perRe = perRe
	p.curve = curve
	p.end = laminarEnd * perRe
	p.start = turbulentStart * perRe
	p.bridge = -1
	p.x = firstX
	if curve > 0 {
		if curve != b.curve { // a power, and most solutions are of the same coil
			b.curve, b.curveEnd = curve, coilLaminarEnd(curve)
		}
		re := b.curveEnd
		p.end, p.start = re*perRe, 2*re*perRe
	}
}

// head adds k velocity heads in bore d.
func (b *builder) head(it *item, k, d float64) {
	inv := 1 / d
	it.invBore = inv
	it.c2 += 8 / (math.Pi * math.Pi) * k * b.invRho * inv * inv * inv * inv
}

func (b *builder) fitting(f *Fitting) {
	if !(goodBore(f.Bore) && f.K >= 0 && f.K <= maxK) {
		var bad problem.List
		problem.Number(&bad, "k", f.K, 0, maxK)
		within(&bad, "bore", f.Bore, minBore, maxBore)
		b.report(bad)
		return
	}
	b.head(b.add(), f.K, float64(f.Bore))
}

func (b *builder) height(h *StaticHeight) {
	if !(h.Rise >= -maxRise && h.Rise <= maxRise) {
		var bad problem.List
		problem.Number(&bad, "rise", float64(h.Rise), -maxRise, maxRise)
		b.report(bad)
		return
	}
	it := b.add()
	it.c0 = b.rho * float64(units.StandardGravity) * float64(h.Rise)
	it.static = it.c0
}

// maxRise bounds a static height, in metres.
const maxRise = 1e5

func (b *builder) rated(r *RatedLoss) {
	if !(r.Flow >= minFlow && r.Flow <= maxFlow && r.Pressure >= 0 && r.Pressure <= maxPressure &&
		r.Linear >= 0 && r.Linear <= 1 && (!r.At.Given() || r.At.ok())) {
		var bad problem.List
		within(&bad, "flow", r.Flow, minFlow, maxFlow)
		atMost(&bad, "pressure", r.Pressure, maxPressure)
		problem.Number(&bad, "linear", float64(r.Linear), 0, 1)
		if r.At.Given() {
			r.At.check(&bad, "at")
		}
		b.report(bad)
		return
	}
	at := &r.At
	if !at.Given() {
		at = &b.ref
	}
	it := b.add()
	p, q, s := float64(r.Pressure), float64(r.Flow), float64(r.Linear)
	it.c2 = p * (1 - s) * b.invRho / (float64(at.Density) * q * q)
	if s > 0 {
		it.c1 = p * s * b.mu * b.invRho / (float64(at.Viscosity) * q)
	}
}

func (b *builder) check(c *CheckValve) {
	if !(c.Cracking >= 0 && c.Cracking <= maxPressure && c.K >= 0 && c.K <= maxK && (c.K == 0 || goodBore(c.Bore))) {
		var bad problem.List
		atMost(&bad, "cracking", c.Cracking, maxPressure)
		problem.Number(&bad, "k", c.K, 0, maxK)
		if c.K != 0 {
			within(&bad, "bore", c.Bore, minBore, maxBore)
		}
		b.report(bad)
		return
	}
	it := b.add()
	it.c0 = float64(c.Cracking)
	if c.K > 0 {
		b.head(it, c.K, float64(c.Bore))
	}
}
