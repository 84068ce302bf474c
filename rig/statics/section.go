package statics

import (
	"math"

	"example.com/washrig/internal/root"
)

// A section is a vessel as a tilt sees it: s runs along the tilt from the middle
// of the vessel, z up from its inside floor, and the surface of the liquid is
// z = h0 + t·s with t = tan θ ≥ 0, so that liquid runs towards +s. All in metres.
type section struct {
	kind sectionKind
	a    float64 // half its extent along s
	h    float64 // inside height
	b    float64 // inside breadth across s; of a cylinder whose axis lies across, its length
	r    float64 // radius of a cylinder
}

type sectionKind uint8

const (
	slab   sectionKind = iota + 1 // box: 2a long, h tall, b broad
	round                         // upright cylinder of radius r = a
	disk                          // cylinder lying across the tilt: its circle is the section
	barrel                        // cylinder lying along the tilt, 2a long
)

func (c *section) capacity() float64 {
	switch c.kind {
	case slab:
		return 2 * c.a * c.h * c.b
	case round:
		return math.Pi * c.r * c.r * c.h
	case disk:
		return math.Pi * c.r * c.r * c.b
	}
	return math.Pi * c.r * c.r * 2 * c.a
}

// level returns the depth and the height of the centre of a volume at rest.
func (c *section) level(v float64) (depth, z float64) {
	switch full := c.capacity(); {
	case v <= 0:
		return 0, 0
	case v >= full:
		return c.h, c.h / 2
	default:
		switch c.kind {
		case slab, round:
			depth = c.h * (v / full)
			return depth, depth / 2
		}
		phi := segment(v / full)
		return c.r * (1 - math.Cos(phi)), c.r - offset(c.r, phi, v/full)
	}
}

// tilted returns the centre of a volume whose surface has the slope t ≥ 0.
func (c *section) tilted(v, t float64) (s, z float64) {
	s, z, _ = c.turned(v, t)
	return s, z
}

// turned is tilted with the derivative of s by t. That of z is t·ds/dt: the energy
// z − t·s of the liquid is least, so the first order of its change is nothing.
//
// ds/dt·V is the second moment of the surface, seen from above, about its own centre.
func (c *section) turned(v, t float64) (s, z, ds float64) {
	full := c.capacity()
	switch {
	case v <= 0:
		return 0, 0, 0
	case v >= full:
		return 0, c.h / 2, 0
	case t <= 0:
		depth, z := c.level(v)
		return 0, z, c.upright(v, depth)
	}
	switch c.kind {
	case slab:
		return c.tiltedSlab(v/full, t)
	case disk:
		// Turning the vessel about its axis leaves it in place, so the liquid
		// keeps its shape and its centre turns with the surface.
		f := v / full
		d := offset(c.r, segment(f), f)
		cos := 1 / math.Sqrt(1+t*t)
		return d * t * cos, c.r - d*cos, d * cos * cos * cos
	case round:
		if depth := c.h * (v / full); t*c.a <= min(depth, c.h-depth) {
			// The surface meets neither floor nor lid: I/V·t with I = π r⁴/4.
			return t * c.r * c.r / (4 * depth), depth/2 + t*t*c.r*c.r/(8*depth), c.r * c.r / (4 * depth)
		}
	}
	// The volume rises with h0, from empty at −t·a to full at h + t·a.
	h0, _, err := root.Safeguarded(func(h0 float64) (float64, float64) {
		m := c.moments(h0, t)
		return m.v - v, m.surface
	}, -t*c.a, c.h+t*c.a, c.h*(v/full), 0, 1e-15*full)
	if err != nil {
		// Not reached: the bracket holds by construction and the volume is continuous.
		_, z = c.level(v)
		return 0, z, 0
	}
	m := c.moments(h0, t)
	if m.surface > 0 {
		ds = max(m.surface2-m.surface1*(m.surface1/m.surface), 0) / m.v
	}
	return m.s / m.v, m.z / m.v, ds
}

// upright returns ds/dt of a volume at rest.
func (c *section) upright(v, depth float64) float64 {
	switch c.kind {
	case slab:
		return c.a * c.a / (3 * depth)
	case round:
		return c.r * c.r / (4 * depth)
	case disk:
		_, z := c.level(v)
		return c.r - z
	}
	return 2 * math.Sqrt(max(depth*(2*c.r-depth), 0)) * c.a * c.a * c.a * 2 / (3 * v)
}

// tiltedSlab returns the centre of the share f of a box, and ds/dt.
//
// With width w = 2a, depth h' = f·h, the four shapes of the liquid are: a
// trapezium whose surface meets both walls; a triangle in the low corner; all but
// a triangle in the high corner; a trapezium whose surface meets floor and lid.
func (c *section) tiltedSlab(f, t float64) (s, z, ds float64) {
	w, h := 2*c.a, c.h
	depth := f * h
	if t*c.a <= min(depth, h-depth) {
		ds = w * w / (12 * depth)
		return t * ds, depth/2 + t*t*ds/2, ds
	}
	if wide := f * w; h/t/2 <= min(wide, w-wide) {
		// Seen from the wall on the low side this is the first shape turned over.
		k := h * h / (12 * wide * t)
		return c.a - wide/2 - k/(2*t), h/2 - k, k / (t * t)
	}
	if f <= 0.5 {
		base := math.Sqrt(2 * f * w * h / t)
		return c.a - base/3, base * t / 3, base / (6 * t)
	}
	// The air is the triangle; moments about the middle of the box.
	base := math.Sqrt(2 * (1 - f) * w * h / t)
	k := (1 - f) / f
	return k * (c.a - base/3), h/2 + k*(base*t/3-h/2), k * base / (6 * t)
}

// liquid holds the volume of a liquid, its moments, and the area of its surface seen
// from above with the first and the second moment of that along s.
type liquid struct{ v, s, z, surface, surface1, surface2 float64 }

// moments integrates the liquid under z = h0 + t·s: partly filled between the
// places where the surface meets floor and lid, full beyond.
func (c *section) moments(h0, t float64) liquid {
	lo := min(max(-h0/t, -c.a), c.a)
	hi := min(max((c.h-h0)/t, -c.a), c.a)
	if c.kind == round {
		return c.roundMoments(h0, t, lo, hi)
	}
	return c.barrelMoments(h0, t, lo, hi)
}

// roundMoments: with s = r·sin ψ the chord is 2 r·cos ψ, and
//
//	∫ chord ds    = r²(ψ + sin ψ·cos ψ)
//	∫ s·chord ds  = −⅔ r³ cos³ψ
//	∫ s²·chord ds = r⁴(ψ/4 − sin 4ψ/16)
func (c *section) roundMoments(h0, t, lo, hi float64) liquid {
	r := c.r
	integrals := func(s float64) (i0, i1, i2 float64) {
		sin := min(max(s/r, -1), 1)
		psi := math.Asin(sin)
		cos := math.Sqrt((1 - sin) * (1 + sin))
		return r * r * (psi + sin*cos), -2. / 3 * r * r * r * cos * cos * cos,
			r * r * r * r * (psi/4 - sin*cos*(1-2*sin*sin)/4)
	}
	a0, a1, a2 := integrals(lo)
	b0, b1, b2 := integrals(hi)
	i0, i1, i2 := b0-a0, b1-a1, b2-a2 // partly filled
	f0, f1 := math.Pi*r*r/2-b0, -b1   // full to the lid
	return liquid{
		v:       h0*i0 + t*i1 + c.h*f0,
		s:       h0*i1 + t*i2 + c.h*f1,
		z:       (h0*h0*i0+2*h0*t*i1+t*t*i2)/2 + c.h*c.h/2*f0,
		surface: i0, surface1: i1, surface2: i2,
	}
}

// barrelMoments: a slice at s holds the segment of half-angle φ with
// cos φ = 1 − d/r, of area r²(φ − sin φ·cos φ), moment −⅔ r³ sin³φ about the axis
// and chord 2 r·sin φ. Along the tilt ds = r·sin φ·dφ/t; integrated over φ the
// integrand is smooth where the surface meets floor or lid, and 16 points of Gauss
// and Legendre are exact to rounding. A surface that stays away from both at a
// small slope is integrated over s instead, where nothing is divided by t.
func (c *section) barrelMoments(h0, t, lo, hi float64) (m liquid) {
	r := c.r
	add := func(s, sin, cos, phi, ds float64) {
		area := r * r * (phi - sin*cos)
		m.v += area * ds
		m.s += s * area * ds
		m.z += (r*area - 2./3*r*r*r*sin*sin*sin) * ds
		chord := 2 * r * sin * ds
		m.surface += chord
		m.surface1 += s * chord
		m.surface2 += s * s * chord
	}
	slice := func(s, ds float64) {
		cos := min(max(1-(h0+t*s)/r, -1), 1)
		add(s, math.Sqrt((1-cos)*(1+cos)), cos, math.Acos(cos), ds)
	}
	if hi > lo {
		low, high := h0+t*lo, h0+t*hi
		if t*(hi-lo) < 0.2*min(low, c.h-high) {
			for _, g := range gauss16 {
				half, mid := (hi-lo)/2, (hi+lo)/2
				slice(mid-g.x*half, g.w*half)
				slice(mid+g.x*half, g.w*half)
			}
		} else {
			from := math.Acos(min(max(1-low/r, -1), 1))
			to := math.Acos(min(max(1-high/r, -1), 1))
			half, mid := (to-from)/2, (to+from)/2
			turn := func(phi, w float64) {
				sin, cos := math.Sincos(phi)
				add((r*(1-cos)-h0)/t, sin, cos, phi, w*half*r*sin/t)
			}
			for _, g := range gauss16 {
				turn(mid-g.x*half, g.w)
				turn(mid+g.x*half, g.w)
			}
		}
	}
	full := math.Pi * r * r * (c.a - hi)
	m.v += full
	m.s += full * (c.a + hi) / 2
	m.z += full * r
	return m
}

// segment returns the half-angle φ of the circular segment that is the share f of
// its circle: φ − sin φ·cos φ = π·f, for 0 < f < 1.
func segment(f float64) float64 {
	if f > 0.5 {
		return math.Pi - segment(1-f)
	}
	phi, _, err := root.Safeguarded(func(phi float64) (float64, float64) {
		sin := math.Sin(phi)
		return lens(phi) - math.Pi*f, 2 * sin * sin
	}, 0, math.Pi/2*(1+1e-15), min(math.Cbrt(1.5*math.Pi*f), math.Pi/2), 0, 1e-16*f)
	if err != nil {
		return math.Cbrt(1.5 * math.Pi * f) // not reached: the bracket holds by construction
	}
	return phi
}

// lens returns φ − sin φ·cos φ = (x − sin x)/2 with x = 2φ, by its series where
// the difference would cancel.
func lens(phi float64) float64 {
	x := 2 * phi
	if x > 0.6 {
		return (x - math.Sin(x)) / 2
	}
	q := x * x
	return x * q / 12 * (1 - q/20*(1-q/42*(1-q/72*(1-q/110*(1-q/156)))))
}

// offset returns how far the centre of the share f of a circle lies from the
// circle's centre: ⅔ r³ sin³φ over the area.
func offset(r, phi, f float64) float64 {
	sin := math.Sin(phi)
	return 2. / 3 * r * sin * sin * sin / (math.Pi * f)
}

// gauss16 holds the positive nodes and the weights of the 16-point rule of Gauss
// and Legendre on −1 to 1: zeros of P₁₆, weights 2/((1 − x²)·P′₁₆(x)²).
var gauss16 = [...]struct{ x, w float64 }{
	{0.09501250983763744018, 0.18945061045506849628},
	{0.28160355077925891323, 0.18260341504492358886},
	{0.45801677765722738634, 0.16915651939500253818},
	{0.61787624440264374844, 0.14959598881657673208},
	{0.75540440835500303389, 0.12462897125553387205},
	{0.86563120238783174388, 0.09515851168249278480},
	{0.94457502307323257607, 0.06225352393864789286},
	{0.98940093499164993259, 0.02715245941175409485},
}
