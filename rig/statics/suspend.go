package statics

import (
	"errors"
	"fmt"
	"math"

	"example.com/washrig/units"
)

// A Spring is how an axle that is sprung by itself gives way.
type Spring struct {
	Load   units.Mass   // on the axle
	Travel units.Length // it has sunk by under that load, from where it just touches; tyres may be counted in
}

// A Suspension is a group of axles that do not equalise: torsion axles, or springs
// without an equaliser.
type Suspension struct {
	Springs []Spring // one for each axle, front to rear

	// Ball is how high the ball stands above where it would be with the frame
	// level and every axle just touching the ground. A ball set for a level frame
	// under load stands lower than that, by the travel of the springs: negative.
	// [LevelBall] returns it.
	Ball units.Length
}

// An AxleLoad is what one axle carries.
type AxleLoad struct {
	Load        units.Mass
	Left, Right units.Mass // if [Suspended].SidesKnown
}

// Suspended is how a set of masses rests on coupler and independent axles.
type Suspended struct {
	Axles      []AxleLoad  // front to rear; 0 for one that hangs free
	Group      units.Mass  // on all axles
	Tongue     units.Mass  // on the ball
	Share      units.Ratio // Tongue over the total
	Nose       units.Angle // of the frame, nose-up positive
	SidesKnown bool        // Left and Right are filled in
}

// maxNose is the frame's inclination, in radians, beyond which the small-angle
// answer is refused: 15° raises the sine over its angle by 1.2 %.
const maxNose = 15 * math.Pi / 180

// Suspend rests masses on the ball and on axles that spring each by itself.
//
//	F_i = k_i·max(0, φ·X_i − b)
//	Σ F_i·X_i = Σ m·X
//	Tongue = Σ m − Σ F_i
//
// X is measured aft from the coupler, k_i = Load/Travel is the stiffness of axle i,
// b the height of the ball ([Suspension].Ball) and φ the inclination of the frame,
// nose-up positive; the frame is stiff and the ball's height is held by the
// vehicle. An axle that would pull hangs free. The moment rises with φ, in straight
// pieces between the inclinations at which an axle touches, so it is solved
// exactly, piece by piece.
//
// A lateral moment goes to the axles in proportion to their stiffness, as far as
// they touch: the stiff frame rolls by one angle.
//
// Range: frame within 15° of level; the shift of masses by that inclination is left
// out. Masses whose moment about the coupler is not positive rest on no axle.
//
// Errors: those of [Balance] and [Trailer.AxlePositions]; another number of springs
// than axles; a spring without load or travel; an axle not aft of the coupler;
// masses that rest on no axle; a frame inclined beyond the range.
//
// Source: elastically supported rigid bar, any textbook of strength of materials.
func Suspend(t Trailer, masses []Mass, s Suspension) (Suspended, error) {
	l, err := Balance(t, masses)
	var h Suspending
	if err = errors.Join(err, h.Set(t, s)); err != nil {
		return Suspended{}, err
	}
	return h.At(l)
}

// A Suspending is a trailer on its springs, checked once, for many sets of masses. The
// zero Suspending waits for [Suspending.Set].
type Suspending struct {
	h     hung
	axles [maxAxles]AxleLoad
}

// Set checks trailer and springs; see [Suspend] for the errors. It does not allocate.
// After an error the Suspending answers nothing until it is set again.
func (s *Suspending) Set(t Trailer, springs Suspension) (err error) {
	s.h, err = newHung(t, springs)
	return err
}

// At is [Suspend] of masses whose loads on equalised axles, of [Balance] or
// [Envelope.At] with the same trailer, are given. It does not allocate; Axles are good
// until the next question.
//
// Errors: those of Suspend that are the masses'.
func (s *Suspending) At(l Loads) (Suspended, error) {
	h := &s.h
	moment := float64(l.Total) * (float64(l.CenterX.Length()) - h.coupler)
	phi, err := h.nose(moment)
	if err != nil {
		return Suspended{}, err
	}
	out := Suspended{Axles: s.axles[:h.n], Nose: units.Angle(phi), SidesKnown: l.SidesKnown}
	var stiff float64
	for i := range out.Axles {
		f := h.load(i, phi)
		out.Axles[i] = AxleLoad{Load: units.Mass(f)}
		out.Group += units.Mass(f)
		if f > 0 {
			stiff += h.k[i]
		}
	}
	out.Tongue = l.Total - out.Group
	out.Share = units.Ratio(out.Tongue / l.Total)
	if l.SidesKnown {
		for i := range out.Axles {
			a := &out.Axles[i]
			if a.Load > 0 {
				lean := (l.Left - l.Right) * units.Mass(h.k[i]/stiff)
				a.Left, a.Right = (a.Load+lean)/2, (a.Load-lean)/2
			}
		}
	}
	return out, nil
}

// SuspendExtremes returns the least and most load of each axle over all values of
// the varying masses.
//
// Every axle load is a rising function of the moment about the coupler alone, also
// where axles come to touch or hang free, and the moment is linear in the masses;
// so all axles have their least at the corner of the least moment and their most at
// that of the greatest.
//
// Errors: those of [Suspend] at either corner, and of [Corners].
func SuspendExtremes(t Trailer, fixed []Mass, varying []Varying, s Suspension) ([]Band[units.Mass], error) {
	e, err := NewEnvelope(t, fixed, varying)
	h, err2 := newHung(t, s)
	if err = errors.Join(err, err2); err != nil {
		return nil, err
	}
	least, most := e.linear(e.fixed.group, ownGroup)
	bands := make([]Band[units.Mass], h.n)
	for _, end := range [...]struct {
		b    Bound[units.Mass]
		most bool
	}{{least, false}, {most, true}} {
		phi, err := h.nose(float64(end.b.Value) * e.span.base)
		if err != nil {
			return nil, err
		}
		for i := range bands {
			b := Bound[units.Mass]{units.Mass(h.load(i, phi)), end.b.At}
			if end.most {
				bands[i].Most = b
			} else {
				bands[i].Least = b
			}
		}
	}
	return bands, nil
}

// LevelBall returns the height of the ball, as [Suspension].Ball, that holds the
// frame level under the given masses. All springs are then pressed alike:
//
//	b = −Σ m·X/Σ k_i·X_i
//
// Errors: those of [Suspend] but for the inclination.
func LevelBall(t Trailer, masses []Mass, s Suspension) (units.Length, error) {
	l, err := Balance(t, masses)
	h, err2 := newHung(t, s)
	if err = errors.Join(err, err2); err != nil {
		return 0, err
	}
	moment := float64(l.Total) * float64(l.CenterX.Length()-t.Coupler.Length())
	if moment <= 0 {
		return 0, noAxle(moment)
	}
	var kx float64
	for i, x := range h.x[:h.n] {
		kx += h.k[i] * x
	}
	return units.Length(-moment / kx), nil
}

// hung is a suspension in SI: positions aft of the coupler, stiffness in kg/m.
type hung struct {
	n       int // axles
	x, k    [maxAxles]float64
	ball    float64
	coupler float64
}

func newHung(t Trailer, s Suspension) (hung, error) {
	var list [maxAxles]units.Position
	var at []units.Position
	var errs []error
	if _, bad := t.span(); bad == nil { // else Balance has said so
		var err error
		if at, err = t.axlesAt(list[:0]); err != nil {
			errs = append(errs, err)
		}
	}
	if len(s.Springs) != t.Axles {
		errs = append(errs, &units.FieldError{Path: "suspension.springs", Value: fmt.Sprint(len(s.Springs)), Want: fmt.Sprintf("%d, one for each axle", t.Axles), Err: units.ErrConflict})
	}
	for i, k := range s.Springs {
		if k.Load >= 1 && k.Load <= maxMass && k.Travel >= 1e-4 && k.Travel <= 1 {
			continue // paths are spelt where something is wrong
		}
		path := fmt.Sprintf("suspension.springs[#%d]", i+1)
		switch {
		case k.Load == 0:
			errs = append(errs, &units.FieldError{Path: path + ".load", Want: "load on the axle", Err: units.ErrMissing})
		case !(k.Load >= 1 && k.Load <= maxMass):
			errs = append(errs, &units.FieldError{Path: path + ".load", Value: k.Load.String(), Want: fmt.Sprintf("1 kg to %d kg", maxMass), Err: units.ErrRange})
		}
		switch {
		case k.Travel == 0:
			errs = append(errs, &units.FieldError{Path: path + ".travel", Want: "how far that load presses it down", Err: units.ErrMissing})
		case !(k.Travel >= 1e-4 && k.Travel <= 1):
			errs = append(errs, &units.FieldError{Path: path + ".travel", Value: k.Travel.String(), Want: "0.0001 m to 1 m", Err: units.ErrRange})
		}
	}
	if !(s.Ball >= -1 && s.Ball <= 1) {
		errs = append(errs, &units.FieldError{Path: "suspension.ball", Value: s.Ball.String(), Want: "-1 m to 1 m", Err: units.ErrRange})
	}
	h := hung{ball: float64(s.Ball), coupler: float64(t.Coupler.Length())}
	for _, p := range at {
		x := float64(p.Length() - t.Coupler.Length())
		if !(x >= 0.1) {
			errs = append(errs, &units.FieldError{Path: "trailer.spacing", Value: t.Spacing.String(), Want: "every axle at least 0.1 m aft of the coupler", Err: units.ErrConflict})
			break
		}
		h.x[h.n] = x
		h.n++
	}
	if err := errors.Join(errs...); err != nil {
		return hung{}, err
	}
	for i, k := range s.Springs[:min(len(s.Springs), maxAxles)] {
		h.k[i] = float64(k.Load) / float64(k.Travel)
	}
	return h, nil
}

func noAxle(moment float64) error {
	return &units.FieldError{Path: "masses", Value: fmt.Sprintf("%.4g kg·m about the coupler", moment), Want: "more than 0 kg·m: something must rest on the axles", Err: units.ErrRange}
}

// load returns what axle i carries with the frame at φ.
func (h *hung) load(i int, phi float64) float64 {
	return h.k[i] * max(0, phi*h.x[i]-h.ball)
}

// nose returns the inclination that carries a moment. Axle i touches from
// φ_i = b/X_i on: with a high ball the rear axle first, with a low one the front.
func (h *hung) nose(moment float64) (float64, error) {
	if !(moment > 0) {
		return 0, noAxle(moment)
	}
	// Of all sets of touching axles taken from one end, the right one gives the
	// φ at which just those axles touch. Front to rear is the order for b < 0,
	// rear to front for b > 0.
	phi := 0.0
	n := h.n
	var kx, kxx float64
	for j := range n {
		i := j
		if h.ball > 0 {
			i = n - 1 - j
		}
		kx += h.k[i] * h.x[i]
		kxx += h.k[i] * h.x[i] * h.x[i]
		phi = (moment + h.ball*kx) / kxx
		if j+1 == n {
			break
		}
		next := i + 1
		if h.ball > 0 {
			next = i - 1
		}
		if phi*h.x[next] <= h.ball {
			break // the next axle hangs free
		}
	}
	if math.Abs(phi) > maxNose {
		return 0, &units.FieldError{Path: "suspension.ball", Value: units.Length(h.ball).String(), Want: fmt.Sprintf("a frame within 15° of level, not %.3g°", phi*180/math.Pi), Err: units.ErrRange}
	}
	return phi, nil
}
