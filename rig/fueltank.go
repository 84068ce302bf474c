package rig

import (
	"math"

	"example.com/washrig/fuel"
	"example.com/washrig/units"
)

// insideOf is a fuel tank as package fuel takes it, where its inside is given.
func insideOf(f *FuelTank) (fuel.Tank, bool) {
	if f.InsideLength == 0 {
		return fuel.Tank{}, false
	}
	return fuel.Tank{Nominal: f.Volume, Length: f.InsideLength, Width: f.InsideWidth, Height: f.InsideHeight,
		PickUp: fuel.PickUp{Height: f.PickUpHeight, Forward: f.PickUpForward, Left: f.PickUpLeft}}, true
}

// reached is the fuel of a full tank that its pick-up reaches with either side
// of the rig up by an angle, the worse of both.
func reached(t fuel.Tank, slope units.Angle) (units.Volume, error) {
	least := units.Volume(math.Inf(1))
	for _, side := range []units.Angle{slope, -slope} {
		c, err := t.ContentAt(1, fuel.Slope{LeftSideUp: side})
		if err != nil {
			return 0, err
		}
		least = min(least, c.Usable)
	}
	return least, nil
}

// senseOfFuelTanks refuses insides of fuel tanks that are half given or that do
// not hold the tank's volume or its pick-up.
func senseOfFuelTanks(s *Spec) []error {
	var errs []error
	fail := func(path Path, value, want string, err error) {
		errs = append(errs, &units.FieldError{Path: string(path), Value: value, Want: want, Err: err})
	}
	for i := range s.FuelTanks {
		f := &s.FuelTanks[i]
		at := Path("fuel_tanks[" + f.ID + "].")
		given := 0
		for _, x := range []units.Length{f.InsideLength, f.InsideWidth, f.InsideHeight} {
			if x != 0 {
				given++
			}
		}
		pickUp := f.PickUpHeight != 0 || f.PickUpForward.Given() || f.PickUpLeft.Given()
		switch {
		case given == 0 && pickUp || given == 1 || given == 2:
			fail(at+"inside_length", "", "inside_length, inside_width and inside_height together, or no inside and no pick-up", units.ErrMissing)
		case given == 3:
			if box := units.Volume(f.InsideLength * f.InsideWidth * f.InsideHeight); f.Volume > box {
				fail(at+"volume", exact(f.Volume), "at most what its inside holds, "+box.Text(units.Gallon, 2), units.ErrConflict)
			}
			if f.PickUpHeight > f.InsideHeight {
				fail(at+"pick_up_height", exact(f.PickUpHeight), "at most the inside height, "+exact(f.InsideHeight), units.ErrConflict)
			}
			if f.PickUpForward.Length() > f.InsideLength {
				fail(at+"pick_up_forward", exact(f.PickUpForward), "at most the inside length, "+exact(f.InsideLength), units.ErrConflict)
			}
			if f.PickUpLeft.Length() > f.InsideWidth {
				fail(at+"pick_up_left", exact(f.PickUpLeft), "at most the inside width, "+exact(f.InsideWidth), units.ErrConflict)
			}
		}
	}
	return errs
}
