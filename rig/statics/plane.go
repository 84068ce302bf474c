package statics

import "math"

// rectangle lies along the axes of the plan; all in metres.
type rectangle struct{ x0, y0, x1, y1 float64 }

func (r rectangle) holds(x, y float64) bool { return x >= r.x0 && x <= r.x1 && y >= r.y0 && y <= r.y1 }

// point returns the distance of a point from the rectangle, 0 inside.
func (r rectangle) point(x, y float64) float64 {
	return math.Hypot(max(r.x0-x, 0, x-r.x1), max(r.y0-y, 0, y-r.y1))
}

// segment returns the distance of a segment from the rectangle, 0 where they meet.
// If they do not meet, the nearest points are an end of the segment and a point of
// the rectangle, or a corner of the rectangle and a point of the segment.
func (r rectangle) segment(ax, ay, bx, by float64) float64 {
	if r.crossed(ax, ay, bx, by) {
		return 0
	}
	d := min(r.point(ax, ay), r.point(bx, by))
	for _, c := range r.corners() {
		d = min(d, pointSegment(c[0], c[1], ax, ay, bx, by))
	}
	return d
}

func (r rectangle) corners() [4][2]float64 {
	return [4][2]float64{{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}}
}

// crossed reports whether a segment meets the rectangle: whether some of it is left
// after clipping by all four sides.
func (r rectangle) crossed(ax, ay, bx, by float64) bool {
	t0, t1 := 0.0, 1.0
	for _, s := range [...]struct{ from, step, lo, hi float64 }{{ax, bx - ax, r.x0, r.x1}, {ay, by - ay, r.y0, r.y1}} {
		if s.step == 0 {
			if s.from < s.lo || s.from > s.hi {
				return false
			}
			continue
		}
		in, out := (s.lo-s.from)/s.step, (s.hi-s.from)/s.step
		t0, t1 = max(t0, min(in, out)), min(t1, max(in, out))
	}
	return t0 <= t1
}

func pointSegment(x, y, ax, ay, bx, by float64) float64 {
	px, py := nearestOn(x, y, ax, ay, bx, by)
	return math.Hypot(x-px, y-py)
}

// nearestOn returns the point of a segment nearest to (x, y).
func nearestOn(x, y, ax, ay, bx, by float64) (px, py float64) {
	dx, dy := bx-ax, by-ay
	t := 0.0
	if q := dx*dx + dy*dy; q > 0 {
		t = min(max(((x-ax)*dx+(y-ay)*dy)/q, 0), 1)
	}
	return ax + t*dx, ay + t*dy
}

// sector is what a gate sweeps: all within r of (x, y) at angles from − to.
type sector struct{ x, y, r, from, to float64 }

func (w *Swing) sector() sector {
	return sector{float64(w.X.Length()), float64(w.Y.Length()), float64(w.Radius), float64(w.From), float64(w.To)}
}

// spans reports whether the direction (dx, dy) lies between the sector's sides.
func (w sector) spans(dx, dy float64) bool {
	turn := math.Mod(math.Atan2(dy, dx)-w.from, 2*math.Pi)
	if turn < 0 {
		turn += 2 * math.Pi
	}
	const slack = 1e-12 // the sides themselves belong to the sector
	return turn <= w.to-w.from+slack || turn >= 2*math.Pi-slack
}

// distance returns how far a rectangle is from the sector, 0 where they meet.
//
// They meet if the hinge is in the rectangle, a corner is in the sector, or a side
// crosses one of the two radii or the arc. If not, the nearest points lie on a radius
// (and the nearest point of the rectangle to it), or on the arc: then the line
// between them passes through the hinge, and the rectangle's point is a corner or
// the point of a side nearest to the hinge.
func (w sector) distance(r rectangle) float64 {
	if r.holds(w.x, w.y) {
		return 0
	}
	d := math.Inf(1)
	for _, a := range [...]float64{w.from, w.to} {
		sin, cos := math.Sincos(a)
		d = min(d, r.segment(w.x, w.y, w.x+w.r*cos, w.y+w.r*sin))
	}
	cs := r.corners()
	for i, c := range cs {
		n := cs[(i+1)%4]
		px, py := nearestOn(w.x, w.y, c[0], c[1], n[0], n[1])
		for _, p := range [...][2]float64{c, {px, py}} {
			if dx, dy := p[0]-w.x, p[1]-w.y; w.spans(dx, dy) {
				d = min(d, max(0, math.Hypot(dx, dy)-w.r))
			}
		}
		if w.arcCrosses(c, n) {
			return 0
		}
	}
	return d
}

// arcCrosses reports whether the arc meets a segment.
func (w sector) arcCrosses(a, b [2]float64) bool {
	ax, ay := a[0]-w.x, a[1]-w.y
	dx, dy := b[0]-a[0], b[1]-a[1]
	// |a + t·d|² = r²
	q, h, c := dx*dx+dy*dy, ax*dx+ay*dy, ax*ax+ay*ay-w.r*w.r
	disc := h*h - q*c
	if q == 0 || disc < 0 {
		return false
	}
	root := math.Sqrt(disc)
	for _, t := range [...]float64{(-h - root) / q, (-h + root) / q} {
		if t >= 0 && t <= 1 && w.spans(ax+t*dx, ay+t*dy) {
			return true
		}
	}
	return false
}
