package fuel_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// box is a tank of 24 × 14 × 12 in, 17.45 gal.
func box(pickUp fuel.PickUp) fuel.Tank {
	return fuel.Tank{Length: 24 * units.Inch, Width: 14 * units.Inch, Height: 12 * units.Inch, PickUp: pickUp}
}

// TestContentAt_agreesWithCounting counts the volume under the tilted surface
// column by column, which is code of another kind than the exact polygon.
func TestContentAt_agreesWithCounting(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		l, w, h := g.Float(0.2, 1.5), g.Float(0.2, 1), g.Float(0.1, 0.8)
		tank := fuel.Tank{
			Length: units.Length(l), Width: units.Length(w), Height: units.Length(h),
			PickUp: fuel.PickUp{
				Height:  units.Length(h * g.Float(0, 1)),
				Forward: units.PositionAt(units.Length(l * g.Float(0, 1))),
				Left:    units.PositionAt(units.Length(w * g.Float(0, 1))),
			},
		}
		s := fuel.Slope{NoseUp: units.Angle(g.Float(-40, 40)) * units.Degree, LeftSideUp: units.Angle(g.Float(-40, 40)) * units.Degree}
		got, err := tank.ContentAt(1, s)
		if err != nil {
			return err
		}
		const n = 300
		var sum float64
		for i := range n {
			x := (float64(i) + 0.5) / n * l
			for j := range n {
				y := (float64(j) + 0.5) / n * w
				z := float64(tank.PickUp.Height) -
					(x-float64(tank.PickUp.Forward.Length()))*math.Tan(float64(s.NoseUp)) -
					(y-float64(tank.PickUp.Left.Length()))*math.Tan(float64(s.LeftSideUp))
				sum += math.Min(math.Max(z, 0), h)
			}
		}
		want := sum / (n * n) / h
		// Counting is off where the surface meets floor or lid: there a column's
		// height is out by a quarter of the rise over it at most.
		rise := (l*math.Abs(math.Tan(float64(s.NoseUp))) + w*math.Abs(math.Tan(float64(s.LeftSideUp)))) / n / h
		if left := float64(got.Left) / (l * w * h); math.Abs(left-want) > rise/2+1e-12 {
			return fmt.Errorf("%+v on %+v leaves %g, counted %g", tank, s, left, want)
		}
		return nil
	})
}

func TestContentAt_mirrorsAndLimits(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tank := box(fuel.PickUp{Height: units.Length(g.Float(0, 3)) * units.Inch})
		a := units.Angle(g.Float(0, 45)) * units.Degree
		b := units.Angle(g.Float(0, 45)) * units.Degree
		fill := units.Ratio(g.Float(0, 1))
		up, err := tank.ContentAt(fill, fuel.Slope{NoseUp: a, LeftSideUp: b})
		if err != nil {
			return err
		}
		down, err := tank.ContentAt(fill, fuel.Slope{NoseUp: -a, LeftSideUp: -b})
		if err != nil {
			return err
		}
		// A pick-up in the middle cannot tell the two sides apart.
		if math.Abs(float64(up.Left-down.Left)) > 1e-12*float64(tank.Length*tank.Width*tank.Height) {
			return fmt.Errorf("nose up leaves %v, nose down %v", up.Left, down.Left)
		}
		if up.Left > up.Filled || up.Usable < 0 || math.Abs(float64(up.Left+up.Usable-up.Filled)) > 1e-15 {
			return fmt.Errorf("%+v", up)
		}
		level, err := tank.ContentAt(fill, fuel.Slope{})
		if err != nil {
			return err
		}
		if level.Usable < up.Usable-1e-15 {
			return fmt.Errorf("level gives %v, on a slope %v", level.Usable, up.Usable)
		}
		return nil
	})
}

func TestContentAt_edges(t *testing.T) {
	tank := fuel.Tank{Nominal: 14 * units.Gallon, UsableFraction: 0.92, FillLimit: 0.95}
	for _, c := range []struct {
		name                 string
		fill                 units.Ratio
		filled, left, usable float64
	}{
		{"full", 1, 13.3, 1.12, 12.18},
		{"half", 0.5, 7, 1.12, 5.88},
		{"below the pick-up", 0.05, 0.7, 0.7, 0},
		{"empty", 0, 0, 0, 0},
	} {
		got, err := tank.ContentAt(c.fill, fuel.Slope{NoseUp: 5 * units.Degree})
		if err != nil || math.Abs(got.Filled.In(units.Gallon)-c.filled) > 1e-12 ||
			math.Abs(got.Left.In(units.Gallon)-c.left) > 1e-12 || math.Abs(got.Usable.In(units.Gallon)-c.usable) > 1e-12 {
			t.Errorf("%s: %v, %v", c.name, got, err)
		}
	}
	low, high := fuel.TradeUsableFraction()
	if low != 0.90 || high != 0.95 {
		t.Errorf("%v to %v", low, high)
	}
	// The plate says less than the box: the same share is out of reach.
	b := box(fuel.PickUp{Height: 1 * units.Inch})
	b.Nominal = 16 * units.Gallon
	got, err := b.ContentAt(1, fuel.Slope{})
	if err != nil || math.Abs(got.Left.In(units.Gallon)-16./12) > 1e-12 {
		t.Errorf("%v, %v", got, err)
	}
}

func TestTank_badInput(t *testing.T) {
	nan := math.NaN()
	in := units.Inch
	for _, c := range []struct {
		name string
		t    fuel.Tank
		fill units.Ratio
		s    fuel.Slope
		path string
		kind error
	}{
		{"zero value", fuel.Tank{}, 1, fuel.Slope{}, "nominal", units.ErrMissing},
		{"zero value", fuel.Tank{}, 1, fuel.Slope{}, "usableFraction", units.ErrMissing},
		{"negative", fuel.Tank{Nominal: -1, UsableFraction: 0.9}, 1, fuel.Slope{}, "nominal", units.ErrRange},
		{"in percent", fuel.Tank{Nominal: 1, UsableFraction: 90}, 1, fuel.Slope{}, "usableFraction", units.ErrRange},
		{"fill limit", fuel.Tank{Nominal: 1, UsableFraction: 0.9, FillLimit: 2}, 1, fuel.Slope{}, "fillLimit", units.ErrRange},
		{"two sides of a box", fuel.Tank{Length: 24 * in, Width: 14 * in}, 1, fuel.Slope{}, "height", units.ErrMissing},
		{"a side in inches", fuel.Tank{Length: 24, Width: 14 * in, Height: 12 * in}, 1, fuel.Slope{}, "length", units.ErrRange},
		{"pick-up through the lid", box(fuel.PickUp{Height: 13 * in}), 1, fuel.Slope{}, "pickUp.height", units.ErrRange},
		{"pick-up outside", box(fuel.PickUp{Forward: units.PositionAt(25 * in)}), 1, fuel.Slope{}, "pickUp.forward", units.ErrRange},
		{"pick-up outside", box(fuel.PickUp{Left: units.PositionAt(-1 * in)}), 1, fuel.Slope{}, "pickUp.left", units.ErrRange},
		{"more than the box", fuel.Tank{Nominal: 30 * units.Gallon, Length: 24 * in, Width: 14 * in, Height: 12 * in}, 1, fuel.Slope{}, "nominal", units.ErrConflict},
		{"overfilled", box(fuel.PickUp{}), 1.1, fuel.Slope{}, "fill", units.ErrRange},
		{"not a number", box(fuel.PickUp{}), units.Ratio(nan), fuel.Slope{}, "fill", units.ErrRange},
		{"on its side", box(fuel.PickUp{}), 1, fuel.Slope{NoseUp: 60 * units.Degree}, "slope.noseUp", units.ErrRange},
		{"on its side", box(fuel.PickUp{}), 1, fuel.Slope{LeftSideUp: units.Angle(nan)}, "slope.leftSideUp", units.ErrRange},
	} {
		got, err := c.t.ContentAt(c.fill, c.s)
		wantFieldError(t, c.name, err, c.path, c.kind)
		if got != (fuel.Content{}) {
			t.Errorf("%s: %+v beside an error", c.name, got)
		}
	}
}

func TestRunTime_edges(t *testing.T) {
	if d, err := fuel.RunTime(0, units.GallonPerHour); err != nil || d != 0 {
		t.Errorf("an empty tank lasts %v, %v", d, err)
	}
	for _, c := range []struct {
		v    units.Volume
		q    units.FuelRate
		path string
		kind error
	}{
		{1, 0, "rate", units.ErrMissing},
		{1, -1, "rate", units.ErrRange},
		{1, 1e-300, "rate", units.ErrRange},
		{-1, 1e-6, "usable", units.ErrRange},
		{units.Volume(math.Inf(1)), 1e-6, "usable", units.ErrRange},
	} {
		d, err := fuel.RunTime(c.v, c.q)
		wantFieldError(t, c.path, err, c.path, c.kind)
		if d != 0 {
			t.Errorf("%v beside %v", d, err)
		}
	}
}

func TestNominalFor_lastsThatLong(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		want := units.Duration(g.Float(0.1, 24)) * units.Hour
		rate := units.FuelRate(g.LogFloat(0.1, 10)) * units.GallonPerHour
		share := units.Ratio(g.Float(0.5, 1))
		v, err := fuel.NominalFor(want, rate, share)
		if err != nil {
			return err
		}
		c, err := fuel.Tank{Nominal: v, UsableFraction: share}.ContentAt(1, fuel.Slope{})
		if err != nil {
			return err
		}
		got, err := fuel.RunTime(c.Usable, rate)
		if err != nil {
			return err
		}
		if math.Abs(float64(got/want)-1) > 1e-12 {
			return fmt.Errorf("%v of tank last %v, want %v", v, got, want)
		}
		return nil
	})
	_, err := fuel.NominalFor(-1, -1, 0)
	wantFieldError(t, "nothing", err, "lasts", units.ErrRange)
	wantFieldError(t, "nothing", err, "rate", units.ErrRange)
	wantFieldError(t, "nothing", err, "usable", units.ErrMissing)
	_, err = fuel.NominalFor(3600, 1e-6, 1e-9)
	wantFieldError(t, "hardly usable", err, "usable", units.ErrRange)
}

func TestRunOut_order(t *testing.T) {
	gph, gal := units.GallonPerHour, units.Gallon
	got, err := fuel.RunOut([]fuel.Supply{
		{Name: "gasoline", Usable: 12 * gal, Rate: 1.5 * gph},
		{Name: "reserve can", Usable: 5 * gal},
		{Name: "diesel", Usable: 14 * gal, Rate: 2 * gph},
		{Name: "portable", Usable: 4 * gal, Rate: 0.5 * gph},
		{Name: "dry", Rate: 1 * gph},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"dry", "diesel", "gasoline", "portable"}
	for i, d := range got {
		if len(got) != 4 || d.Name != want[i] || i > 0 && d.Lasts < got[i-1].Lasts {
			t.Fatalf("%+v", got)
		}
	}
	if got[0].Lasts != 0 || got[0].Supply != 4 || math.Abs(got[1].Lasts.In(units.Hour)-7) > 1e-12 {
		t.Errorf("%+v", got)
	}
	if none, err := fuel.RunOut(nil); err != nil || len(none) != 0 {
		t.Errorf("%v, %v", none, err)
	}
	_, err = fuel.RunOut([]fuel.Supply{{Usable: -1}, {Usable: 1, Rate: -1}})
	wantFieldError(t, "supplies", err, "supplies[0].usable", units.ErrRange)
	wantFieldError(t, "supplies", err, "supplies[1].rate", units.ErrRange)
}

func FuzzContentAt(f *testing.F) {
	f.Add(0.6, 0.35, 0.3, 0.02, 0.3, 0.1, 0.1, -0.05, 0.9)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0)
	f.Fuzz(func(t *testing.T, l, w, h, up, forward, left, nose, side, fill float64) {
		tank := fuel.Tank{
			Length: units.Length(l), Width: units.Length(w), Height: units.Length(h),
			PickUp: fuel.PickUp{Height: units.Length(up), Forward: units.PositionAt(units.Length(forward)), Left: units.PositionAt(units.Length(left))},
		}
		got, err := tank.ContentAt(units.Ratio(fill), fuel.Slope{NoseUp: units.Angle(nose), LeftSideUp: units.Angle(side)})
		if err != nil {
			if got != (fuel.Content{}) {
				t.Fatalf("%+v beside %v", got, err)
			}
			return
		}
		if !(got.Filled >= 0 && got.Left >= 0 && got.Left <= got.Filled && got.Usable >= 0) || math.IsInf(float64(got.Filled), 0) {
			t.Fatalf("%+v of %+v", got, tank)
		}
	})
}
