package statics

import (
	"cmp"
	"errors"
	"slices"

	"example.com/washrig/units"
)

// An On says which load a rating is for.
type On int

const (
	OnTotal  On = iota + 1 // the whole trailer
	OnTongue               // the ball
	OnGroup                // the axle group
	OnAxle                 // each axle of an equalised group
	OnTyre                 // each tyre, on the heavier side
)

// String returns "total", "tongue", "axle group", "axle" or "tyre".
func (o On) String() string {
	switch o {
	case OnTotal:
		return "total"
	case OnTongue:
		return "tongue"
	case OnGroup:
		return "axle group"
	case OnAxle:
		return "axle"
	case OnTyre:
		return "tyre"
	}
	return "no load"
}

// A Rating is the most that something may carry. What is on it besides the load of
// the trailer is given in Beside, so that every plate fits the same form:
//
//	gross vehicle       OnTotal    the trailer's plate
//	gross axle          OnAxle     the trailer's plate
//	tyre                OnTyre     at the stated pressure
//	coupler             OnTotal and OnTongue
//	ball, receiver      OnTotal and OnTongue
//	gross combination   OnTotal    Beside: tow vehicle with crew and load
//	payload, or gross tow vehicle  OnTongue  Beside: crew and load, or the vehicle with both
type Rating struct {
	Name   string
	On     On
	Most   units.Mass // as printed on the plate; required
	Beside units.Mass // already resting on it
}

// Limits is what a trailer must keep to in every fill.
type Limits struct {
	Ratings               []Rating
	ShareLeast, ShareMost units.Ratio // of the tongue; 0: no limit
}

// A Margin is the worst a rating sees.
type Margin struct {
	Rating Rating
	Load   units.Mass  // Beside counted in
	Margin units.Ratio // (Most − Load)/Most; negative when passed
	At     Corner      // fill of that load
}

// Margins returns the margin of every rating at its worst fill, the narrowest
// first, then in the order of names.
//
//	Margin = (Most − Beside − load)/Most
//
// Errors: a rating without Most, or with one outside 0 to 200 t, or with a Beside
// outside that; a rating of no load; a tyre rating where the sides are not known.
func Margins(x Extremes, ratings []Rating) ([]Margin, error) {
	errs := checkRatings(nil, ratings)
	for i, r := range ratings {
		if r.On == OnTyre && !x.SidesKnown {
			errs = append(errs, &units.FieldError{Path: element("ratings", i, r.Name), Want: "y of every mass and the trailer's track", Err: units.ErrMissing})
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	ms := make([]Margin, len(ratings))
	for i, r := range ratings {
		b := x.on(r.On).Most
		load := b.Value + r.Beside
		ms[i] = Margin{Rating: r, Load: load, Margin: units.Ratio((r.Most - load) / r.Most), At: b.At}
	}
	slices.SortStableFunc(ms, func(a, b Margin) int {
		return cmp.Or(cmp.Compare(a.Margin, b.Margin), cmp.Compare(a.Rating.Name, b.Rating.Name), cmp.Compare(a.Rating.On, b.Rating.On))
	})
	return ms, nil
}

// Lowest returns the rating that allows the least of a load, Most less Beside: of
// several in a chain the lowest wins, by name. Of equals it is the first by name.
// ok is false if no rating is for that load.
func Lowest(ratings []Rating, on On) (lowest Rating, allowed units.Mass, ok bool) {
	for _, r := range ratings {
		a := r.Most - r.Beside
		if r.On == on && (!ok || a < allowed || a == allowed && r.Name < lowest.Name) {
			lowest, allowed, ok = r, a, true
		}
	}
	return lowest, allowed, ok
}

func (x *Extremes) on(o On) Band[units.Mass] {
	switch o {
	case OnTongue:
		return x.Tongue
	case OnGroup:
		return x.Group
	case OnAxle:
		return x.Axle
	case OnTyre:
		return x.Tyre
	}
	return x.Total
}

func checkRatings(errs []error, ratings []Rating) []error {
	for i := range ratings {
		r := &ratings[i]
		if r.On >= OnTotal && r.On <= OnTyre && r.Most != 0 && fitMass(r.Most) && fitMass(r.Beside) {
			continue
		}
		at := element("ratings", i, r.Name)
		if r.On < OnTotal || r.On > OnTyre {
			errs = append(errs, &units.FieldError{Path: at + ".on", Want: "total, tongue, axle group, axle or tyre", Err: units.ErrMissing})
		}
		if r.Most == 0 {
			errs = append(errs, &units.FieldError{Path: at + ".most", Want: "the rating", Err: units.ErrMissing})
		} else {
			errs = checkMass(errs, at+".most", r.Most)
		}
		errs = checkMass(errs, at+".beside", r.Beside)
	}
	return errs
}

// row is one limit in linear form. With u = (x − x_c)/(x_a − x_c) the share of a
// mass on the axles, it holds where
//
//	c + Σ m·(p + q·u + r·y) ≥ 0
type row struct {
	name       string
	on         On // 0: the tongue share
	c, p, q, r float64
}

// rows returns the limits in linear form, each relaxed by the given share of
// itself: ratings and the upper share times 1 + give, the lower share times 1 − give.
// They are appended to rs.
func (t Trailer) rows(rs []row, l Limits, track, give float64) []row {
	for i := range l.Ratings {
		r := &l.Ratings[i]
		c := float64(r.Most)*(1+give) - float64(r.Beside)
		switch r.On {
		case OnTotal:
			rs = append(rs, row{r.Name, r.On, c, -1, 0, 0})
		case OnTongue:
			rs = append(rs, row{r.Name, r.On, c, -1, 1, 0})
		case OnGroup:
			rs = append(rs, row{r.Name, r.On, c, 0, -1, 0})
		case OnAxle:
			rs = append(rs, row{r.Name, r.On, c * float64(t.Axles), 0, -1, 0})
		case OnTyre:
			c *= float64(t.ends())
			rs = append(rs, row{r.Name, r.On, c, 0, -0.5, -1 / track}, row{r.Name, r.On, c, 0, -0.5, 1 / track})
		}
	}
	if l.ShareLeast != 0 {
		rs = append(rs, row{NameShareLeast, 0, 0, 1 - float64(l.ShareLeast)*(1-give), -1, 0})
	}
	if l.ShareMost != 0 {
		rs = append(rs, row{NameShareMost, 0, 0, float64(l.ShareMost)*(1+give) - 1, 1, 0})
	}
	return rs
}

// Names under which answers speak of the two limits of the tongue share.
const (
	NameShareLeast = "least tongue share"
	NameShareMost  = "greatest tongue share"
)

// check returns what is wrong with limits; hasY says whether tyre loads can be told.
func (l Limits) check(t Trailer, hasY bool) []error {
	errs := checkRatings(nil, l.Ratings)
	for i := range l.Ratings {
		r := &l.Ratings[i]
		if r.On == OnTyre && (t.Track == 0 || !hasY) {
			errs = append(errs, &units.FieldError{Path: element("ratings", i, r.Name), Want: "y of every mass and the trailer's track", Err: units.ErrMissing})
		}
	}
	for _, c := range [...]struct {
		path string
		s    units.Ratio
	}{{"shareLeast", l.ShareLeast}, {"shareMost", l.ShareMost}} {
		if !(c.s >= 0 && c.s <= 1) {
			errs = append(errs, &units.FieldError{Path: c.path, Value: c.s.String(), Want: "0 % to 100 %", Err: units.ErrRange})
		}
	}
	if l.ShareLeast != 0 && l.ShareMost != 0 && l.ShareLeast > l.ShareMost {
		errs = append(errs, &units.FieldError{Path: "shareLeast", Value: l.ShareLeast.String(), Want: "at most " + l.ShareMost.String(), Err: units.ErrConflict})
	}
	if len(l.Ratings) == 0 && l.ShareLeast == 0 && l.ShareMost == 0 {
		errs = append(errs, &units.FieldError{Path: "limits", Want: "at least one limit", Err: units.ErrMissing})
	}
	return errs
}
