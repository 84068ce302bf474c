package sheet

import (
	"math"
	"slices"

	"example.com/washrig/rig/statics"
)

// A hatching tells a kind of zone from the others without colour. The letter of
// the zone and the key say the same in words.
type hatching struct {
	angles []float64 // degrees, from straight aft
	step   float64
	style  string
}

const (
	ruled  = `stroke="#000" stroke-width="0.6"`
	dotted = `stroke="#000" stroke-width="1.3" stroke-dasharray="1.3 6"`
)

func hatchingOf(k statics.ZoneKind) hatching {
	switch k {
	case statics.Heat:
		return hatching{[]float64{45}, 5, ruled}
	case statics.Exhaust:
		return hatching{[]float64{-45}, 5, ruled}
	case statics.Fuel:
		return hatching{[]float64{45, -45}, 7, ruled}
	case statics.HosePath:
		return hatching{[]float64{0}, 8, ruled}
	case statics.GateSwing:
		return hatching{[]float64{90}, 8, ruled}
	}
	return hatching{[]float64{0}, 8, dotted}
}

// fill hatches a polygon of the picture inside a window.
func (h hatching) fill(p *plot, shape [][2]float64, window area) {
	for _, angle := range h.angles {
		sin, cos := math.Sincos(angle * math.Pi / 180)
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, v := range shape {
			t := -sin*v[0] + cos*v[1]
			lo, hi = math.Min(lo, t), math.Max(hi, t)
		}
		step := math.Max(h.step, (hi-lo)/400)
		for t := lo + step/2; t < hi; t += step {
			var along []float64 // where the line t crosses the edges
			for i, a := range shape {
				b := shape[(i+1)%len(shape)]
				ta, tb := -sin*a[0]+cos*a[1]-t, -sin*b[0]+cos*b[1]-t
				if (ta < 0) != (tb < 0) {
					f := ta / (ta - tb)
					along = append(along, cos*(a[0]+f*(b[0]-a[0]))+sin*(a[1]+f*(b[1]-a[1])))
				}
			}
			slices.Sort(along)
			for i := 0; i+1 < len(along); i += 2 {
				x1, y1 := along[i]*cos-t*sin, along[i]*sin+t*cos
				x2, y2 := along[i+1]*cos-t*sin, along[i+1]*sin+t*cos
				if around := (area{math.Min(x1, x2) - 1, math.Min(y1, y2) - 1, math.Max(x1, x2) + 1, math.Max(y1, y2) + 1}); around.meets(window) {
					p.line(x1, y1, x2, y2, h.style)
				}
			}
		}
	}
}

// arc adds points of an arc to a polygon, every 5° or closer.
func arc(out [][2]float64, x, y, r, from, to float64) [][2]float64 {
	n := max(int(math.Ceil(math.Abs(to-from)/(5*math.Pi/180)-1e-9)), 1)
	for i := range n + 1 {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(n))
		out = append(out, [2]float64{x + r*cos, y + r*sin})
	}
	return out
}

// outlineOf is everything within a distance of a zone's shape in plan, as a
// polygon in metres of the rig's own coordinates. A path has round ends,
// because it keeps half its width clear all around.
func outlineOf(z *statics.Zone, away float64) [][2]float64 {
	const quarter = math.Pi / 2
	switch {
	case z.Block != nil:
		x1, x2, y1, y2 := metres(z.Block.Fore), metres(z.Block.Aft), metres(z.Block.Right), metres(z.Block.Left)
		if away == 0 {
			return [][2]float64{{x1, y1}, {x2, y1}, {x2, y2}, {x1, y2}}
		}
		out := arc(nil, x2, y2, away, 0, quarter)
		out = arc(out, x1, y2, away, quarter, 2*quarter)
		out = arc(out, x1, y1, away, 2*quarter, 3*quarter)
		return arc(out, x2, y1, away, 3*quarter, 4*quarter)
	case z.Swing != nil:
		return swingOutline(z.Swing, away)
	case len(z.Path) == 2:
		ax, ay, bx, by := metres(z.Path[0].X), metres(z.Path[0].Y), metres(z.Path[1].X), metres(z.Path[1].Y)
		r, along := float64(z.Width)/2+away, math.Atan2(by-ay, bx-ax)
		out := arc(nil, bx, by, r, along-quarter, along+quarter)
		return arc(out, ax, ay, r, along+quarter, along+3*quarter)
	}
	return nil
}

func swingOutline(s *statics.Swing, away float64) [][2]float64 {
	const quarter = math.Pi / 2
	x, y, r, from, to := metres(s.X), metres(s.Y), float64(s.Radius), float64(s.From), float64(s.To)
	turn := to - from
	if turn >= 4*quarter-1e-9 {
		return arc(nil, x, y, r+away, 0, 4*quarter)
	}
	out := arc(nil, x, y, r+away, from, to)
	if away == 0 {
		return append(out, [2]float64{x, y})
	}
	// Round both ends of the arc, and between them round the hinge or, where more
	// than half a turn is swept, to where the two sides meet in the gap.
	round := func(out [][2]float64, at, a, b float64) [][2]float64 {
		sin, cos := math.Sincos(at)
		return arc(out, x+r*cos, y+r*sin, away, a, b)
	}
	if turn <= 2*quarter {
		out = round(out, to, to, to+quarter)
		out = arc(out, x, y, away, to+quarter, from+3*quarter)
		return round(out, from, from-quarter, from)
	}
	half, middle := 2*quarter-turn/2, (from+to)/2+2*quarter
	sin, cos := math.Sincos(half)
	if away*cos < r*sin { // straight sides meet
		d, s, c := away/sin, math.Sin(middle), math.Cos(middle)
		out = append(round(out, to, to, to+quarter), [2]float64{x + d*c, y + d*s})
		return round(out, from, from-quarter, from)
	}
	phi := math.Atan2(r*sin, math.Sqrt(away*away-r*r*sin*sin)) // the round ends do
	out = round(out, to, to, middle+phi)
	return round(out, from, middle-phi-4*quarter, from)
}

// heights are those between which a zone is kept clear, in metres; ok is false
// where it is kept clear at every height.
func heights(z *statics.Zone) (lo, hi float64, ok bool) {
	a, b := z.Bottom, z.Top
	if z.Block != nil {
		a, b = z.Block.Bottom, z.Block.Top
	}
	return metres(a), metres(b), a.Given() && b.Given()
}
