package vacuum

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// An Element is one thing that the air passes between the tool and the motors. The
// set is closed: [Hose], [Fitting], [RatedLoss] and [Opening].
type Element interface {
	compile(p *problem.List, path string, g *gas) piece
}

// A Hose is a length of one bore, smooth or corrugated.
//
// Air alone loses the pressure of compressible isothermal flow, the equation of
// [IsothermalFlow]. With water the friction is that of [MullerSteinhagenHeck], the
// lift costs the weight of the water that [VoidFraction] leaves in the bore, and
// the momentum is that of a mixture at one speed. With no water, or with no air,
// the equations of the one fluid remain.
type Hose struct {
	Bore      units.Length
	Length    units.Length
	Roughness units.Length // absolute; zero is smooth, as lined hose is

	// Rise is how far the outlet lies above the inlet. A hose that leads down gives
	// nothing back: the water runs along the bottom without filling it.
	Rise units.Length

	// A corrugated hose is given by its pitch, from crest to crest, or by a factor
	// on the friction of a smooth one; about 2 is common practice. A hose without
	// either is smooth.
	Pitch      units.Length
	Corrugated units.Ratio
}

// A Fitting loses a multiple of the velocity head in its bore: entry, bend,
// coupling, wand.
//
//	Δp = K ρ v²/2
type Fitting struct {
	K    float64
	Bore units.Length
}

// A RatedLoss is a measured loss at a flow: a tool, a filter, a silencer as their
// sheets give them.
//
//	Δp = Δp₀ [ (1−s) (ρ/ρ₀)(q/q₀)² + s (μ/μ₀)(q/q₀) ]
//
// q is the flow as it is there, at the mean of the pressures before and behind; s
// is the share of the loss that is laminar, zero for tools and passages, near one
// for a cake of dust.
type RatedLoss struct {
	Flow   units.VolumeFlow
	Loss   units.Pressure
	Linear units.Ratio // s; zero to one
	Air    Air         // it was measured with; see [StandardAir]
}

// An Opening is a hole or a slot: the gap under a ring or berm, a leak, a bleed.
//
//	Δp = (ṁ/(C A))²/(2 ρ)
//
// Range: C about 0.6 for a sharp edge, 0.8 for a slot as deep as it is wide, 1 for
// a rounded one.
type Opening struct {
	Area      units.Area
	Discharge units.Ratio // C; more than 0, at most 1
}

// Slot returns the opening of a gap of a height under a rim of a length, as of a
// ring or skirt that rides on the ground.
func Slot(length, height units.Length, discharge units.Ratio) Opening {
	return Opening{Area: units.Area(float64(length) * float64(height)), Discharge: discharge}
}

// A piece is one element as numbers.
type piece struct {
	hose   bool
	tube   tube
	c1, c2 float64 // Δp = (c2 ṁ + c1) (volume flow)
}

// A tube is a hose as numbers.
type tube struct {
	d, l, area float64
	k          float64 // roughness over bore
	times      float64 // on the smooth friction
	rough      float64 // friction factor of corrugations; zero where there are none
	sin        float64 // rise over length
}

func (h Hose) compile(p *problem.List, path string, _ *gas) piece {
	problem.Within(p, path+".bore", h.Bore, minBore, maxBore)
	problem.Within(p, path+".length", h.Length, minLength, maxLength)
	if !(h.Roughness >= 0 && float64(h.Roughness) <= maxRoughness*float64(h.Bore)) {
		p.Add(path+".roughness", h.Roughness.String(), "0 to a twentieth of the bore", units.ErrRange)
	}
	problem.Between(p, path+".rise", h.Rise, 0, maxRise)
	if h.Rise > h.Length {
		p.Add(path+".rise", h.Rise.String(), "at most the length, "+h.Length.String(), units.ErrConflict)
	}
	switch {
	case h.Pitch != 0 && h.Corrugated != 0:
		p.Add(path+".corrugated", h.Corrugated.String(), "the pitch or the factor, not both", units.ErrConflict)
	case h.Pitch != 0:
		if !(h.Pitch > 0 && h.Pitch <= h.Bore) {
			p.Add(path+".pitch", h.Pitch.String(), "more than 0, at most the bore", units.ErrRange)
		}
		if h.Roughness != 0 {
			p.Add(path+".roughness", h.Roughness.String(), "nothing; the corrugations are its roughness", units.ErrConflict)
		}
	case h.Corrugated != 0:
		problem.Number(p, path+".corrugated", float64(h.Corrugated), 1, 20)
	}
	t := tube{d: float64(h.Bore), l: float64(h.Length), area: circle(float64(h.Bore)), times: 1}
	t.k = float64(h.Roughness) / t.d
	t.sin = float64(h.Rise) / t.l
	if h.Corrugated != 0 {
		t.times = float64(h.Corrugated)
	}
	if h.Pitch != 0 {
		t.rough = CorrugatedFriction(t.d, float64(h.Pitch))
	}
	return piece{hose: true, tube: t}
}

func (f Fitting) compile(p *problem.List, path string, _ *gas) piece {
	problem.Number(p, path+".k", f.K, 0, maxK)
	problem.Within(p, path+".bore", f.Bore, minBore, maxBore)
	return piece{c2: f.K / (2 * square(circle(float64(f.Bore))))}
}

func (r RatedLoss) compile(p *problem.List, path string, g *gas) piece {
	problem.Within(p, path+".flow", r.Flow, minAirFlow, maxAirFlow)
	problem.Between(p, path+".loss", r.Loss, 0, maxPressure)
	problem.Number(p, path+".linear", float64(r.Linear), 0, 1)
	if err := r.Air.Validate(); err != nil {
		p.Take(path+".air", err)
		return piece{}
	}
	of, err := r.Air.gas()
	if err != nil {
		p.Take(path+".air", err)
		return piece{}
	}
	q, dp, s := float64(r.Flow), float64(r.Loss), float64(r.Linear)
	return piece{c2: (1 - s) * dp / (of.rho * q * q), c1: s * dp * g.mu / (of.mu * q)}
}

func (o Opening) compile(p *problem.List, path string, _ *gas) piece {
	problem.Within(p, path+".area", o.Area, minArea, maxArea)
	problem.Within(p, path+".discharge", o.Discharge, 1e-3, 1)
	return piece{c2: 1 / (2 * square(float64(o.Area)*float64(o.Discharge)))}
}

// compile appends a list of elements to out as pieces.
func compile(p *problem.List, path string, g *gas, list []Element, out []piece) []piece {
	for i, e := range list {
		if e == nil {
			p.Add(problem.At(path, i), "", "an element", units.ErrMissing)
			continue
		}
		before := len(*p) // the path is written where something is wrong
		c := e.compile(p, "", g)
		if len(*p) > before {
			*p = (*p)[:before]
			c = e.compile(p, problem.At(path, i), g)
		}
		out = append(out, c)
	}
	return out
}

// A flow is what passes one path: air and liquid as numbers.
type flow struct {
	g      *gas
	air    float64 // kg/s
	liquid float64 // kg/s
	vl     float64 // m³/kg of the liquid
	mul    float64
	drift  float64 // of VoidFraction, m/s
	spread float64 // factor on what the liquid adds to the friction
	alone  float64 // stream.alone of the one hose, where the air stays as it is

	// Where the friction factors of gas and liquid were last, of whatever hose.
	nearGas, nearLiquid hydraulics.FrictionPoint
}

// pass returns the pressure behind a piece, from the pressure before it. ok is
// false where the flow cannot pass: it would need more than all the pressure, or
// more than the speed of sound.
func (c *piece) pass(f *flow, p float64) (behind float64, ok bool) {
	if c.hose {
		return c.tube.pass(f, p)
	}
	// Δp = a + b/p̄ with p̄ the mean of before and behind: air at its mean
	// density. The sum s of the two pressures solves s² − (2p − a) s + 2b = 0.
	m := c.c2*(f.air+f.liquid) + c.c1
	a, b := m*f.liquid*f.vl, m*f.air*f.g.rt
	h := 2*p - a
	d := h*h - 8*b
	if !(d >= 0 && h > 0) {
		return 0, false
	}
	behind = (h+math.Sqrt(d))/2 - p
	return behind, behind > 0
}

// before returns the pressure before a piece that is no hose, from the pressure behind
// it: pass the other way round.
func (c *piece) before(f *flow, behind float64) float64 {
	m := c.c2*(f.air+f.liquid) + c.c1
	a, b := m*f.liquid*f.vl, m*f.air*f.g.rt
	h := 2*behind + a
	return (h+math.Sqrt(h*h+8*b))/2 - behind
}

// Points and weights of Gauss and Legendre with four and six points.
var (
	gauss4 = [...]node{
		{-0.861136311594052575224, 0.347854845137453857373}, {-0.339981043584856264803, 0.652145154862546142627},
		{0.339981043584856264803, 0.652145154862546142627}, {0.861136311594052575224, 0.347854845137453857373},
	}
	gauss6 = [...]node{
		{-0.932469514203152027812, 0.171324492379170345040}, {-0.661209386466264513661, 0.360761573048138607569},
		{-0.238619186083196908631, 0.467913934572691047389}, {0.238619186083196908631, 0.467913934572691047389},
		{0.661209386466264513661, 0.360761573048138607569}, {0.932469514203152027812, 0.171324492379170345040},
	}
)

type node struct{ x, w float64 }

// A law is what a hose asks of a flow: the pressure falls by dp over a length
//
//	dz = (1 − c/p²) / (a + b/p + w(p)) dp,  w(p) = W [1 − X/(E + D p)]
//
// where a + b/p is the friction, w the weight of the water per length, by
// [VoidFraction], and c/p² the momentum that expansion takes.
type law struct {
	dry             bool // no water: a and w are zero
	a, b, c         float64
	weight, x, e, d float64
}

// A stream is a hose and what runs in it, as numbers that no flow changes.
type stream struct {
	tube            *tube
	perArea         float64 // 1/m²
	gasRe, liquidRe float64 // Reynolds number over mass flux
	gas, liquid     float64 // gradient over f G², with the volume of each: b and a
	rt, vl, drift   float64
	weight          float64
}

func (t *tube) stream(f *flow) stream {
	s := stream{tube: t, perArea: 1 / t.area, gasRe: t.d / f.g.mu, gas: f.g.rt / (2 * t.d), rt: f.g.rt}
	if f.vl > 0 {
		s.liquidRe, s.liquid, s.vl, s.drift, s.weight = t.d/f.mul, f.vl/(2*t.d), f.vl, f.drift, gravity*t.sin/f.vl
	}
	return s
}

// law returns what the hose asks of a flow of both, or of air alone.
func (s *stream) law(f *flow) (l law) {
	total := f.air + f.liquid
	G, per := total*s.perArea, 1/total
	x := f.air * per
	G2 := G * G
	l.c = G2 * x * s.rt
	if !(f.liquid > 0) {
		l.dry, l.b = true, f.alone
		if l.b == 0 {
			l.b = s.alone(f)
		}
		return l
	}
	gas := s.gas * s.tube.friction(G*s.gasRe, &f.nearGas) * G2
	liquid := s.liquid * s.tube.friction(G*s.liquidRe, &f.nearLiquid) * G2
	y := f.liquid * per
	root := math.Cbrt(y)
	l.a = f.spread * liquid * (1 - 2*x) * root
	l.b = f.spread * gas * (2*x*root + x*x*x)
	if f.spread != 1 && f.air > 0 {
		alone := f.alone
		if alone == 0 {
			alone = s.alone(f)
		}
		l.b += (1 - f.spread) * alone
	}
	l.weight = s.weight
	l.x = x * s.rt
	l.e = (1 + 0.2*y) * l.x
	l.d = y*(1+0.2*y)*s.vl + s.drift*f.liquid*s.tube.area*per*per
	return l
}

// alone is the friction of the air without water: b of its law.
func (s *stream) alone(f *flow) float64 {
	G := f.air * s.perArea
	return s.gas * s.tube.friction(G*s.gasRe, &f.nearGas) * G * G
}

// at is the length per pressure at p.
func (l *law) at(p float64) float64 {
	n := l.e + l.d*p
	return (p*p - l.c) * n / (p * (((l.a+l.weight)*p+l.b)*n - l.weight*l.x*p))
}

// mean is the mean of the length per pressure from p2 to p1. It is good to 1e-11: the
// points are enough for the ratio of the two pressures.
func (l *law) mean(p1, p2 float64) float64 {
	m, h := (p1+p2)/2, (p1-p2)/2
	t := h / m
	if l.dry {
		// ln(p1/p2)/(p1 − p2), by its series where that is short
		ln := 0.0
		if q := t * t; q < 0.01 {
			ln = (1 + q*(1./3+q*(1./5+q*(1./7+q*(1./9+q*(1./11+q*(1./13+q*(1./15)))))))) / m
		} else {
			ln = math.Log(p1/p2) / (p1 - p2)
		}
		return (m - l.c*ln) / l.b
	}
	sum := 0.0
	switch t = math.Abs(t); {
	case t < 0.08:
		for _, n := range gauss4 {
			sum += n.w * l.at(m+h*n.x)
		}
		return sum / 2
	case t < 0.25:
		for _, n := range gauss6 {
			sum += n.w * l.at(m+h*n.x)
		}
		return sum / 2
	}
	u := math.Log(p1 / p2) // over the logarithm it is smoother
	for _, n := range gauss6 {
		p := p1 * math.Exp(-u*(1+n.x)/2)
		sum += n.w * l.at(p) * p
	}
	return sum * u / (2 * (p1 - p2))
}

// pass solves for the pressure p2 behind a hose: the integral of its law from p2 to p1
// is its length. For air alone this is the isothermal equation.
func (t *tube) pass(f *flow, p1 float64) (float64, bool) {
	total := f.air + f.liquid
	if !(total > 0) {
		return p1, p1 > 0
	}
	if f.air == 0 {
		G := total / t.area
		p2 := p1 - (f.spread*gradient(t.friction(G*t.d/f.mul, &f.nearLiquid), G, t.d)*f.vl+gravity*t.sin/f.vl)*t.l
		return p2, p2 > 0
	}
	s := t.stream(f)
	l := s.law(f)
	choke := math.Sqrt(l.c) // the pressure at which the flow chokes
	if !(p1 > choke) {
		return 0, false
	}
	length := func(p2 float64) float64 { return l.mean(p1, p2) * (p1 - p2) }
	// Newton's method inside the bracket; the length rises steadily as p2 falls. The
	// start is a step of the midpoint rule.
	lo, hi := choke, p1
	p2 := p1 - t.l/math.Max(l.at(p1), 1e-300)
	if m := (p1 + p2) / 2; m > lo {
		p2 = p1 - t.l/l.at(m)
	}
	if !(p2 > lo) {
		// near the choke: does the hose end before it?
		if !(length(lo) >= t.l) {
			return 0, false
		}
		p2 = (lo + hi) / 2
	}
	for range 200 {
		e := length(p2) - t.l
		if e > 0 {
			lo = p2
		} else {
			hi = p2
		}
		next := p2 + e/l.at(p2)
		// The error of a step squares in the next.
		if d := math.Abs(next - p2); d <= 1e-6*(p1-next) && d <= 1e-3*(p2-choke) || d <= 1e-15*p1 {
			return next, true
		}
		if !(next > lo && next < hi) {
			if lo == choke && !(length(choke) >= t.l) {
				return 0, false
			}
			next = lo + (hi-lo)/2
		}
		if hi-lo <= 1e-15*p1 {
			return next, true
		}
		p2 = next
	}
	return p2, true
}

// spare is by how much two pressures before and behind the hose differ more than a
// flow takes, reckoned at the mean of its law between the two: zero where they belong
// together, smooth and nearly straight about that. NaN where the flow chokes between
// them or next to it.
func (s *stream) spare(f *flow, p1, p2 float64) float64 {
	l := s.law(f)
	if least := math.Min(p1, p2); !(least > 0 && least*least > 1.02*l.c) {
		return math.NaN()
	}
	return p1 - p2 - s.tube.l/l.mean(p1, p2)
}

// along passes a list of pieces one after another. Where vacuum is not nil it is
// given the pressure behind each.
func along(list []piece, f *flow, p float64, behind []float64) (float64, bool) {
	for i := range list {
		var ok bool
		if p, ok = list[i].pass(f, p); !ok {
			return 0, false
		}
		if behind != nil {
			behind[i] = p
		}
	}
	return p, true
}

// reynolds is the Reynolds number of air alone, for results.
func (t *tube) reynolds(f *flow) float64 { return f.air / t.area * t.d / f.g.mu }

func (t *tube) regime(f *flow) hydraulics.Regime {
	switch Re := t.reynolds(f); {
	case Re == 0:
		return hydraulics.Still
	case Re <= 2000:
		return hydraulics.Laminar
	case Re < 4000:
		return hydraulics.Transitional
	}
	return hydraulics.Turbulent
}
