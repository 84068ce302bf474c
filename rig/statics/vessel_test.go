package statics_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func randomVessel(g *property.G) statics.Vessel {
	l := func() units.Length { return units.Length(g.LogFloat(0.3, 3)) }
	switch v := (statics.Vessel{Shape: statics.Shape(1 + g.Pick(4))}); v.Shape {
	case statics.Box:
		v.Length, v.Width, v.Height = l(), l(), l()
		return v
	case statics.UprightCylinder:
		v.Diameter, v.Height = l(), l()
		return v
	case statics.LengthwiseCylinder:
		v.Diameter, v.Length = l(), l()
		return v
	default:
		v.Diameter, v.Width = l(), l()
		return v
	}
}

// column returns what stands over the place (x, y) of a vessel seen from above:
// the heights between which it is inside.
func column(v statics.Vessel, x, y float64) (lo, hi float64) {
	r := float64(v.Diameter) / 2
	switch v.Shape {
	case statics.Box:
		return 0, float64(v.Height)
	case statics.UprightCylinder:
		if math.Hypot(x, y) > r {
			return 0, 0
		}
		return 0, float64(v.Height)
	case statics.LengthwiseCylinder:
		x = y
	}
	half := math.Sqrt(max(0, r*r-x*x))
	return r - half, r + half
}

func extents(v statics.Vessel) (length, width float64) {
	switch v.Shape {
	case statics.Box:
		return float64(v.Length), float64(v.Width)
	case statics.UprightCylinder:
		return float64(v.Diameter), float64(v.Diameter)
	case statics.LengthwiseCylinder:
		return float64(v.Length), float64(v.Diameter)
	}
	return float64(v.Diameter), float64(v.Width)
}

// Liquid under an inclined surface summed column by column on a grid: the centre
// agrees with ours to the fineness of the grid.
func TestVessel_Tilted_againstColumns(t *testing.T) {
	const n = 120
	property.Check(t, func(g *property.G) error {
		v := randomVessel(g)
		way := statics.Way(1 + g.Pick(2))
		slope := g.LogFloat(0.01, 5)
		length, width := extents(v)
		along := width
		if way == statics.Lengthwise {
			along = length
		}
		height := float64(v.Height + v.Diameter)
		if v.Shape == statics.UprightCylinder {
			height = float64(v.Height)
		}
		h0 := g.Float(-slope*along/2, height+slope*along/2)
		var vol, sx, sz float64
		for i := range n {
			for j := range n {
				x, y := ((float64(i)+0.5)/n-0.5)*length, ((float64(j)+0.5)/n-0.5)*width
				s := y
				if way == statics.Lengthwise {
					s = x
				}
				lo, hi := column(v, x, y)
				top := min(max(h0+slope*s, lo), hi)
				vol += top - lo
				sx += s * (top - lo)
				sz += (top*top - lo*lo) / 2
			}
		}
		cell := length * width / (n * n)
		capacity, err := v.Capacity()
		if err != nil {
			return err
		}
		if vol*cell < 0.02*float64(capacity) || vol*cell > float64(capacity) {
			return property.ErrDiscard // too few columns to say where a puddle is
		}
		s, z, err := v.Tilted(units.Volume(vol*cell), units.Angle(math.Atan(slope)), way)
		if err != nil {
			return err
		}
		// The grid's own volume and edges are good to about one cell in n, as a
		// share of the liquid's extent; the volume is the same for both sides.
		tol := 0.02 * (along + height)
		if math.Abs(float64(s)-sx/vol) > tol || math.Abs(float64(z)-sz/vol) > tol {
			return fmt.Errorf("%v %v, slope %.3g: centre (%.5g, %.5g), by columns (%.5g, %.5g)", v.Shape, way, slope, s, z, sx/vol, sz/vol)
		}
		return nil
	})
}

// A liquid at rest has the lowest energy: of z − tan θ·s. So z rises by tan θ for
// every step of s as the tilt grows, whatever the vessel and whichever walls the
// surface meets; the shift never falls; and the centre never sinks.
func TestVessel_Tilted_energy(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		v := randomVessel(g)
		way := statics.Way(1 + g.Pick(2))
		capacity, err := v.Capacity()
		if err != nil {
			return err
		}
		volume := units.Volume(g.Float(0.01, 0.99)) * capacity
		slope := g.LogFloat(1e-3, 8)
		d := 1e-3 * slope
		at := func(slope float64) (s, z float64) {
			a, b, e := v.Tilted(volume, units.Angle(math.Atan(slope)), way)
			if e != nil {
				err = e
			}
			return float64(a), float64(b)
		}
		s1, z1 := at(slope - d)
		s2, z2 := at(slope + d)
		s3, z3 := at(slope)
		if err != nil {
			return err
		}
		length, width := extents(v)
		size := length + width + float64(v.Height)
		if s2 < s1-1e-12*size || z2 < z1-1e-12*size || s3 < 0 {
			return fmt.Errorf("%v %v: tilting further moved the centre back: (%g, %g) to (%g, %g)", v.Shape, way, s1, z1, s2, z2)
		}
		// ∫ tan θ ds over the step lies between the ends of tan θ.
		lo, hi := (slope-d)*(s2-s1), (slope+d)*(s2-s1)
		if rise := z2 - z1; rise < lo-1e-11*size || rise > hi+1e-11*size {
			return fmt.Errorf("%v %v, slope %g: rise %g for a shift of %g", v.Shape, way, slope, rise, s2-s1)
		}
		_, rest, err := v.Depth(volume)
		if err != nil {
			return err
		}
		if z3 < float64(rest)-1e-12*size {
			return fmt.Errorf("%v: centre %g below that at rest %g", v.Shape, z3, rest)
		}
		return nil
	})
}

// For small tilts every vessel follows I/V·tan θ with I the second moment of its
// surface at rest.
func TestVessel_Tilted_smallTilt(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		v := randomVessel(g)
		way := statics.Way(1 + g.Pick(2))
		capacity, err := v.Capacity()
		if err != nil {
			return err
		}
		volume := units.Volume(g.Float(0.05, 0.95)) * capacity
		depth, _, err := v.Depth(volume)
		if err != nil {
			return err
		}
		length, width := extents(v)
		chord := 2 * math.Sqrt(float64(depth*(v.Diameter-depth)))
		switch v.Shape {
		case statics.LengthwiseCylinder:
			width = chord
		case statics.CrosswiseCylinder:
			length = chord
		}
		i := length * width * width * width / 12
		if way == statics.Lengthwise {
			i = width * length * length * length / 12
		}
		if v.Shape == statics.UprightCylinder {
			i = math.Pi * math.Pow(float64(v.Diameter), 4) / 64
		}
		const slope = 1e-5
		s, _, err := v.Tilted(volume, units.Angle(math.Atan(slope)), way)
		if err != nil {
			return err
		}
		if want := i / float64(volume) * slope; math.Abs(float64(s)-want) > 1e-4*want {
			return fmt.Errorf("%v %v: shift %g, I/V·tan θ %g", v.Shape, way, s, want)
		}
		return nil
	})
}

// What is said of the liquid follows from what is said of the air: their moments
// together are those of the full vessel, with air on the other side.
func TestVessel_Tilted_airAndLiquid(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		v := randomVessel(g)
		way := statics.Way(1 + g.Pick(2))
		capacity, err := v.Capacity()
		if err != nil {
			return err
		}
		f := units.Volume(g.Float(0.02, 0.98))
		tilt := units.Angle(g.Float(0, 80)) * units.Degree
		s, z, err := v.Tilted(f*capacity, tilt, way)
		if err != nil {
			return err
		}
		// Turned upside down the air is a liquid of the other volume.
		as, az, err := v.Tilted((1-f)*capacity, tilt, way)
		if err != nil {
			return err
		}
		height := float64(v.Height)
		if v.Height == 0 {
			height = float64(v.Diameter)
		}
		k := float64(f)
		length, width := extents(v)
		size := length + width + height
		if d := k*float64(s) - (1-k)*float64(as); math.Abs(d) > 1e-12*size {
			return fmt.Errorf("%v %v: lateral moments miss by %g", v.Shape, way, d)
		}
		if d := k*float64(z) + (1-k)*(height-float64(az)) - height/2; math.Abs(d) > 1e-12*size {
			return fmt.Errorf("%v %v: vertical moments miss by %g", v.Shape, way, d)
		}
		return nil
	})
}

func TestVessel_ends(t *testing.T) {
	for _, v := range []statics.Vessel{
		{Shape: statics.Box, Length: 1, Width: 2, Height: 0.5},
		{Shape: statics.UprightCylinder, Diameter: 1, Height: 2},
		{Shape: statics.LengthwiseCylinder, Diameter: 1, Length: 2},
		{Shape: statics.CrosswiseCylinder, Diameter: 1, Width: 2},
	} {
		capacity, err := v.Capacity()
		if err != nil {
			t.Fatal(err)
		}
		for _, way := range []statics.Way{statics.Sideways, statics.Lengthwise} {
			s, z, err := v.Tilted(0, 0.5, way)
			if err != nil || s != 0 || z != 0 {
				t.Errorf("%v empty: %v %v %v", v.Shape, s, z, err)
			}
			s, z, err = v.Tilted(capacity, 0.5, way)
			height := v.Height
			if height == 0 {
				height = v.Diameter
			}
			if err != nil || s != 0 || z != height/2 {
				t.Errorf("%v full: %v %v %v", v.Shape, s, z, err)
			}
			_, level, err := v.Tilted(capacity/3, 0, way)
			_, rest, err2 := v.Depth(capacity / 3)
			if err != nil || err2 != nil || level != rest {
				t.Errorf("%v at rest: %v and %v (%v, %v)", v.Shape, level, rest, err, err2)
			}
		}
	}
}

func TestVessel_errors(t *testing.T) {
	box := statics.Vessel{Shape: statics.Box, Length: 1, Width: 1, Height: 1}
	for _, c := range []struct {
		name     string
		vessel   statics.Vessel
		volume   units.Volume
		tilt     units.Angle
		way      statics.Way
		sentinel error
		want     []string
	}{
		{"no shape", statics.Vessel{}, 0, 0, statics.Sideways, units.ErrMissing, []string{"vessel.shape"}},
		{"no dimensions", statics.Vessel{Shape: statics.Box}, 0, 0, statics.Sideways, units.ErrMissing, []string{"vessel.length", "vessel.width", "vessel.height"}},
		{"no way", box, 0.5, 0, 0, units.ErrMissing, []string{"way"}},
		{"not a length", statics.Vessel{Shape: statics.UprightCylinder, Diameter: units.Length(math.NaN()), Height: -1}, 0, 0, statics.Sideways, units.ErrRange, []string{"vessel.height", "vessel.diameter"}},
		{"a box has no diameter", statics.Vessel{Shape: statics.Box, Length: 1, Width: 1, Height: 1, Diameter: 1}, 0, 0, statics.Sideways, units.ErrConflict, []string{"vessel.diameter"}},
		{"over full", box, 1.1, 0, statics.Sideways, units.ErrRange, []string{"volume"}},
		{"on its side", box, 0.5, 90 * units.Degree, statics.Sideways, units.ErrRange, []string{"tilt"}},
		{"leaning back", box, 0.5, -0.1, statics.Sideways, units.ErrRange, []string{"tilt"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := c.vessel.Tilted(c.volume, c.tilt, c.way)
			if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
				t.Errorf("fields (-want +got):\n%s", d)
			}
		})
	}
}

// The height of a tank's liquid follows its level, in a form that need not hold
// exactly what the tank is sold as.
func TestTank_Load_height(t *testing.T) {
	tank := statics.Tank{
		Name: "fresh", Nominal: 1.05, Density: 1000, X: metres(3), Y: metres(0),
		Vessel: statics.Vessel{Shape: statics.Box, Length: 1, Width: 1, Height: 1}, Floor: metres(0.6),
	}
	m, err := tank.Load(0.5)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(m.Z.Length()); math.Abs(got-0.85) > 1e-12 || math.Abs(float64(m.Mass)-525) > 1e-9 {
		t.Errorf("half full: %v at %v, want 525 kg at 0.85 m", m.Mass, m.Z)
	}
	if v, err := tank.Range(0, 1); err != nil || v.Z.Given() {
		t.Errorf("a height that moves is given as %v (%v)", v.Z, err)
	}
	tank.Nominal = 0
	if m, err = tank.Load(1); err != nil || m.Mass != 1000 {
		t.Errorf("by its form alone: %v, %v", m.Mass, err)
	}
	tank.Nominal = 1.2
	if _, err = tank.Load(1); len(fields(t, err, units.ErrConflict)) != 1 {
		t.Errorf("form and nominal a fifth apart: %v", err)
	}
	tank.Nominal, tank.Baffles = 1, 1.5
	if _, err = tank.Load(1); len(fields(t, err, units.ErrRange)) != 1 {
		t.Errorf("baffles that push: %v", err)
	}
}

func FuzzVessel(f *testing.F) {
	f.Add(1, 1.0, 1.0, 1.0, 0.0, 0.5, 0.5, 1)
	f.Add(2, 0.0, 0.0, 2.0, 1.0, 0.001, 1.4, 2)
	f.Add(3, 2.0, 0.0, 0.0, 1.0, 0.999, 1.2, 2)
	f.Add(4, 0.0, 20.0, 0.0, 0.01, 0.5, 1e-9, 1)
	f.Fuzz(func(t *testing.T, shape int, l, w, h, d, fill, tilt float64, way int) {
		v := statics.Vessel{Shape: statics.Shape(shape), Length: units.Length(l), Width: units.Length(w), Height: units.Length(h), Diameter: units.Length(d)}
		capacity, err := v.Capacity()
		if err != nil {
			return
		}
		s, z, err := v.Tilted(units.Volume(fill)*capacity, units.Angle(tilt), statics.Way(way))
		if err != nil {
			return
		}
		height := v.Height
		if v.Shape != statics.Box && v.Shape != statics.UprightCylinder {
			height = v.Diameter
		}
		length, width := extents(v)
		if !(s >= 0 && float64(s) <= max(length, width)/2*(1+1e-9)) || !(z >= 0 && z <= height*(1+1e-9)) {
			t.Errorf("%+v %v full at %v: centre (%v, %v) outside the vessel", v, fill, tilt, s, z)
		}
	})
}

func BenchmarkVessel_Tilted(b *testing.B) {
	for _, v := range []statics.Vessel{
		{Shape: statics.Box, Length: 1, Width: 2, Height: 0.5},
		{Shape: statics.UprightCylinder, Diameter: 1, Height: 1},
		{Shape: statics.LengthwiseCylinder, Diameter: 1, Length: 2},
		{Shape: statics.CrosswiseCylinder, Diameter: 1, Width: 2},
	} {
		b.Run(v.Shape.String(), func(b *testing.B) {
			capacity, err := v.Capacity()
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if _, _, err := v.Tilted(capacity/3, 0.9, statics.Sideways); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
