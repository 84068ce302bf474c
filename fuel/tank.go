package fuel

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strconv"

	"example.com/washrig/units"
)

// A Tank is a fuel tank. Its usable fuel follows either from a share
// (UsableFraction) or from its inside and where its pick-up sits.
//
// Coordinates are the tank's own: x forward from the rear wall, y to the left
// from the right wall, z up from the floor.
type Tank struct {
	Nominal   units.Volume // on its plate; required unless the inside is given
	FillLimit units.Ratio  // highest filling, leaving room to expand; not given: 1

	UsableFraction units.Ratio // share of Nominal that can be drawn; not given: from the inside

	Length, Width, Height units.Length // inside, of a box
	PickUp                PickUp
}

// A PickUp is the end of the suction tube inside a tank. Its zero value is a
// tube that ends on the floor in the middle.
type PickUp struct {
	Height  units.Length   // above the floor, where it starts to draw air
	Forward units.Position // from the rear wall; not given: half the length
	Left    units.Position // from the right wall; not given: half the width
}

// A Slope is how a rig stands.
type Slope struct {
	NoseUp     units.Angle // front above the rear; negative is nose down
	LeftSideUp units.Angle // left above the right; negative is left side down
}

// TradeUsableFraction returns what the trade takes for a tank whose inside is
// not known: 90 to 95 % of its plate.
func TradeUsableFraction() (low, high units.Ratio) { return 0.90, 0.95 }

// A Content is what a filling of a tank comes to.
type Content struct {
	Filled units.Volume // in the tank
	Left   units.Volume // what the pick-up cannot reach, at most Filled
	Usable units.Volume // Filled − Left
}

// geometry reports whether the inside is given.
func (t Tank) geometry() bool { return t.Length != 0 || t.Width != 0 || t.Height != 0 }

// nominal is the plate's volume, or that of the inside.
func (t Tank) nominal() float64 {
	if t.Nominal != 0 {
		return float64(t.Nominal)
	}
	return float64(t.Length) * float64(t.Width) * float64(t.Height)
}

// Validate returns every problem of t, joined in field order.
func (t Tank) Validate() error {
	var errs []error
	const most = 1000 * units.CubicMeter
	switch {
	case t.Nominal == 0 && !t.geometry():
		errs = append(errs, missing("nominal", "more than 0 gal"))
	case !within(float64(t.Nominal), 0, float64(most)):
		errs = append(errs, outside("nominal", number(t.Nominal.In(units.Gallon))+" gal", "more than 0 gal, up to 264,000 gal"))
	}
	errs = append(errs, checkShare("fillLimit", t.FillLimit), checkShare("usableFraction", t.UsableFraction))
	if !t.geometry() {
		if t.UsableFraction == 0 {
			errs = append(errs, missing("usableFraction", "0.90 to 0.95 in the trade, or the inside of the tank"))
		}
		return errors.Join(errs...)
	}
	inside := errors.Join(
		checkInside("length", t.Length), checkInside("width", t.Width), checkInside("height", t.Height))
	errs = append(errs, inside)
	if inside == nil {
		errs = append(errs,
			units.At("pickUp", checkInTank("height", t.PickUp.Height, t.Height)),
			units.At("pickUp", checkInTank("forward", t.PickUp.Forward.Length(), t.Length)),
			units.At("pickUp", checkInTank("left", t.PickUp.Left.Length(), t.Width)))
		box := float64(t.Length) * float64(t.Width) * float64(t.Height)
		if float64(t.Nominal) > box*1.02 {
			errs = append(errs, &units.FieldError{
				Path:  "nominal",
				Value: t.Nominal.Text(units.Gallon, 2),
				Want:  "at most what the inside holds, " + units.Volume(box).Text(units.Gallon, 2),
				Err:   units.ErrConflict,
			})
		}
	}
	return errors.Join(errs...)
}

// checkInside wants a length a tank can have.
func checkInside(path string, l units.Length) error {
	switch {
	case l == 0:
		return missing(path, "the inside of the tank")
	case within(float64(l), 1e-3, 20):
		return nil
	}
	return outside(path, number(l.In(units.Inch))+" in", "0.04 to 790 in")
}

// checkInTank wants a place inside a length.
func checkInTank(path string, x, most units.Length) error {
	if within(float64(x), 0, float64(most)) {
		return nil
	}
	return outside(path, number(x.In(units.Inch))+" in", "0 to "+most.Text(units.Inch, 2))
}

// ContentAt returns what can be drawn from a filling on a slope.
//
//	Left = ∫∫ clip(z(x, y), 0, H) dx dy,  z = h − (x − xp)·tan θ − (y − yp)·tan φ
//
// The pick-up at (xp, yp) draws air once the surface stands at its height h, so
// what it leaves is what lies under that surface: θ is how far the nose is up and
// φ how far the left side is. The integral is exact for a box. Where the plate
// says less than the box holds, corners and baffles are taken to take their
// share everywhere.
//
// With UsableFraction instead of the inside, Left is (1 − UsableFraction)·Nominal
// on any slope.
//
// fill is the share of Nominal that is in the tank; more than FillLimit is
// FillLimit. A rolling rig sloshes and draws air earlier; the surface here is at
// rest.
//
// Errors: a *[units.FieldError] for a field of t, a fill outside 0 to 1, or a
// slope beyond 45°.
func (t Tank) ContentAt(fill units.Ratio, s Slope) (Content, error) {
	err := errors.Join(t.Validate(), checkShare("fill", fill),
		checkSlope("slope.noseUp", s.NoseUp), checkSlope("slope.leftSideUp", s.LeftSideUp))
	if err != nil {
		return Content{}, err
	}
	if t.FillLimit != 0 {
		fill = min(fill, t.FillLimit)
	}
	nominal := t.nominal()
	filled := float64(fill) * nominal
	left := (1 - float64(t.UsableFraction)) * nominal
	if t.UsableFraction == 0 {
		left = t.under(s) * nominal
	}
	left = min(left, filled)
	return Content{Filled: units.Volume(filled), Left: units.Volume(left), Usable: units.Volume(filled - left)}, nil
}

// checkSlope wants a slope of 45° at most.
func checkSlope(path string, a units.Angle) error {
	if within(a.In(units.Degree), -45, 45) {
		return nil
	}
	return outside(path, number(a.In(units.Degree))+"°", "-45 to 45°")
}

// under is the share of the box below the surface through the pick-up.
func (t Tank) under(s Slope) float64 {
	l, w, h := float64(t.Length), float64(t.Width), float64(t.Height)
	xp, yp := l/2, w/2
	if t.PickUp.Forward.Given() {
		xp = float64(t.PickUp.Forward.Length())
	}
	if t.PickUp.Left.Given() {
		yp = float64(t.PickUp.Left.Length())
	}
	a, b := -math.Tan(float64(s.NoseUp)), -math.Tan(float64(s.LeftSideUp))
	c := float64(t.PickUp.Height) - a*xp - b*yp
	return math.Max(wedge(l, w, a, b, c)-wedge(l, w, a, b, c-h), 0) / (l * w * h)
}

// wedge is ∫∫ max(a·x + b·y + c, 0) dx dy over 0 ≤ x ≤ l, 0 ≤ y ≤ w: the part of
// the rectangle where the plane is above zero is a polygon of at most five
// corners, and the plane's mean over a triangle is that of its corners.
func wedge(l, w, a, b, c float64) float64 {
	type corner struct{ x, y, z float64 }
	z := func(x, y float64) corner { return corner{x, y, a*x + b*y + c} }
	box := [4]corner{z(0, 0), z(l, 0), z(l, w), z(0, w)}
	var keep [6]corner
	n := 0
	for i, p := range box {
		q := box[(i+1)%4]
		if p.z > 0 {
			keep[n] = p
			n++
		}
		if (p.z > 0) != (q.z > 0) {
			s := p.z / (p.z - q.z)
			keep[n] = corner{p.x + s*(q.x-p.x), p.y + s*(q.y-p.y), 0}
			n++
		}
	}
	var sum float64
	for i := 2; i < n; i++ {
		o, p, q := keep[0], keep[i-1], keep[i]
		area := ((p.x-o.x)*(q.y-o.y) - (q.x-o.x)*(p.y-o.y)) / 2
		sum += area * (o.z + p.z + q.z) / 3
	}
	return sum
}

// RunTime returns how long a usable volume lasts at one rate, V/q. An empty tank
// lasts 0 hours.
//
// Errors: a *[units.FieldError] for a volume below zero, or a rate that is not
// above zero: what burns nothing has no run time.
func RunTime(usable units.Volume, rate units.FuelRate) (units.Duration, error) {
	err := checkPositiveRate("rate", rate)
	if !within(float64(usable), 0, 1e3) {
		err = errors.Join(outside("usable", number(usable.In(units.Gallon))+" gal", "0 to 264,000 gal"), err)
	}
	if err == nil && float64(usable)/float64(rate) > 1e10 {
		err = outside("rate", number(rate.In(units.GallonPerHour))+" gph", "a rate that empties the tank in 300 years")
	}
	if err != nil {
		return 0, err
	}
	return units.Duration(float64(usable) / float64(rate)), nil
}

// NominalFor returns the plate volume of a tank that lasts a time at one rate,
// q·t/(usable share): what to buy so that fuel outlasts the water.
//
// Errors: a *[units.FieldError] for a time or rate below zero or a usable share
// that is not above 0, up to 1.
func NominalFor(lasts units.Duration, rate units.FuelRate, usable units.Ratio) (units.Volume, error) {
	err := errors.Join(checkDuration("lasts", lasts), checkRate("rate", rate), checkPositiveShare("usable", usable))
	if err == nil && usable < 0.01 {
		err = outside("usable", number(float64(usable)), "0.01 to 1")
	}
	if err != nil {
		return 0, err
	}
	return units.Volume(float64(lasts) * float64(rate) / float64(usable)), nil
}

// checkDuration wants a time of 0 to a year.
func checkDuration(path string, d units.Duration) error {
	if within(float64(d), 0, 366*86400) {
		return nil
	}
	return outside(path, number(d.In(units.Hour))+" h", "0 to 8,784 h")
}

// A Supply is one tank and what draws on it.
type Supply struct {
	Name   string
	Usable units.Volume   // in it now
	Rate   units.FuelRate // drawn from it; 0 is left out of the order
}

// A Depletion is when a supply runs out.
type Depletion struct {
	Supply int // index of the supply
	Name   string
	Lasts  units.Duration
}

// RunOut returns when each supply runs out at its rate, the first to do so
// first, and of equals the one named first. A supply that nothing draws on does
// not run out and is left out.
//
// Errors: a *[units.FieldError] for a supply ("supplies[1].…").
func RunOut(supplies []Supply) ([]Depletion, error) {
	var errs []error
	var out []Depletion
	for i, s := range supplies {
		at := "supplies[" + strconv.Itoa(i) + "]"
		if s.Rate == 0 {
			if _, err := RunTime(s.Usable, units.GallonPerHour); err != nil {
				errs = append(errs, units.At(at, err))
			}
			continue
		}
		d, err := RunTime(s.Usable, s.Rate)
		if err != nil {
			errs = append(errs, units.At(at, err))
			continue
		}
		out = append(out, Depletion{Supply: i, Name: s.Name, Lasts: d})
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	slices.SortStableFunc(out, func(a, b Depletion) int { return cmp.Compare(a.Lasts, b.Lasts) })
	return out, nil
}
