package statics_test

import (
	"fmt"

	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// What sits on the ball, and on each axle.
func ExampleBalance() {
	trailer := statics.Trailer{AxleGroup: units.PositionAt(12.6 * units.Foot), Axles: 2}
	loads, err := statics.Balance(trailer, []statics.Mass{
		{Name: "trailer", Mass: 2500 * units.Pound, X: units.PositionAt(11.6 * units.Foot)},
		{Name: "washer", Mass: 860 * units.Pound, X: units.PositionAt(8.2 * units.Foot)},
		{Name: "reels", Mass: 270 * units.Pound, X: units.PositionAt(17 * units.Foot)},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("total ", loads.Total.Text(units.Pound, 0))
	fmt.Println("tongue", loads.Tongue.Text(units.Pound, 0), loads.Share.Text(units.Percent, 1))
	fmt.Println("axle  ", loads.Axle.Text(units.Pound, 0))
	// Output:
	// total  3630 lb
	// tongue 404 lb 11.1 %
	// axle   1613 lb
}

// The least and greatest tongue share, whatever is in the tanks.
func ExampleCorners() {
	trailer := statics.Trailer{AxleGroup: units.PositionAt(12.6 * units.Foot), Axles: 2}
	dry := []statics.Mass{{Name: "dry", Mass: 4200 * units.Pound, X: units.PositionAt(11.1 * units.Foot)}}
	var liquids []statics.Varying
	for _, tank := range []statics.Tank{
		{Name: "fresh", Nominal: 240 * units.Gallon, Density: 8.34 * units.PoundPerGallon, X: units.PositionAt(10 * units.Foot)},
		{Name: "recovered", Nominal: 160 * units.Gallon, Density: 8.34 * units.PoundPerGallon, X: units.PositionAt(15.6 * units.Foot)},
	} {
		v, err := tank.Range(0, 1)
		if err != nil {
			fmt.Println(err)
			return
		}
		liquids = append(liquids, v)
	}
	x, err := statics.Corners(trailer, dry, liquids)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range []statics.Bound[units.Ratio]{x.Share.Least, x.Share.Most} {
		fmt.Printf("%s with %s\n", b.Value.Text(units.Percent, 1), b.At.Text(liquids))
	}
	// Output:
	// 3.3 % with fresh least, recovered most
	// 14.7 % with fresh most, recovered least
}

// The lateral acceleration that tips the trailer, and the fill it does so at.
func ExampleRollover() {
	trailer := statics.Trailer{AxleGroup: units.PositionAt(12 * units.Foot), Axles: 2, Track: 5.8 * units.Foot}
	at := func(x, y, z units.Length) (a, b, c units.Position) {
		return units.PositionAt(x * units.Foot), units.PositionAt(y * units.Foot), units.PositionAt(z * units.Foot)
	}
	dry := statics.Mass{Name: "dry", Mass: 4100 * units.Pound}
	dry.X, dry.Y, dry.Z = at(11, 0, 2.5)
	tank := statics.Tank{
		Name: "fresh", Density: 8.34 * units.PoundPerGallon,
		Vessel: statics.Vessel{Shape: statics.Box, Length: 5 * units.Foot, Width: 5.5 * units.Foot, Height: 1.4 * units.Foot},
	}
	tank.X, tank.Y, tank.Floor = at(10, 0, 2)
	s, err := statics.Rollover(trailer, []statics.Mass{dry}, nil, []statics.Filling{{Tank: tank, Least: 0, Most: 1}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("tips at", s.Threshold.Text(units.StandardGravity, 2), "or on a slope of", s.SideSlope.Text(units.Degree, 0))
	fmt.Println("with the tank filled to", s.Levels[0].Text(units.Percent, 0))
	fmt.Printf("at rest the factor is %.2f\n", float64(s.Factor))
	// Output:
	// tips at 1.02 g or on a slope of 46 °
	// with the tank filled to 48 %
	// at rest the factor is 1.18
}

// The cheapest movement that brings the tongue share inside its limits.
func ExamplePlace() {
	trailer := statics.Trailer{AxleGroup: units.PositionAt(12.6 * units.Foot), Axles: 2}
	dry := []statics.Mass{
		{Name: "dry", Mass: 4200 * units.Pound, X: units.PositionAt(11.1 * units.Foot)},
		{Name: "shell", Mass: 120 * units.Pound, X: units.PositionAt(15.6 * units.Foot)},
	}
	water := []statics.Varying{{Name: "recovered", Most: 1334 * units.Pound, X: units.PositionAt(15.6 * units.Foot)}}
	p, err := statics.Place(trailer, dry, water, nil, []statics.Mover{
		{Name: "recovered tank", Masses: []string{"recovered", "shell"}, Forward: 5 * units.Foot},
		{Name: "axles", Axle: true, Back: 1 * units.Foot, Cost: 20},
	}, statics.Limits{ShareLeast: 0.10, ShareMost: 0.15})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(p.Possible, p.Shifts[0].Text(units.Foot, 2), p.Shifts[1].Text(units.Foot, 2))
	fmt.Println(p.Binding[0].Limit, "with", p.Binding[0].At.Text(water))
	// Output:
	// true -3.57 ft 0.00 ft
	// least tongue share with recovered most
}

// How many gallons a tow vehicle allows, and which rating decides.
func ExampleMostVolume() {
	trailer := statics.Trailer{AxleGroup: units.PositionAt(12.6 * units.Foot), Axles: 2}
	dry := []statics.Mass{{Name: "dry", Mass: 4900 * units.Pound, X: units.PositionAt(11 * units.Foot)}}
	tank := []statics.Growth{{Name: "water", Share: 1, X: units.PositionAt(11 * units.Foot), Density: 8.34 * units.PoundPerGallon}}
	v, err := statics.MostVolume(trailer, dry, nil, tank, nil, statics.Limits{
		ShareLeast: 0.10, ShareMost: 0.15,
		Ratings: []statics.Rating{
			{Name: "combination", On: statics.OnTotal, Most: 16000 * units.Pound, Beside: 6600 * units.Pound},
			{Name: "hitch", On: statics.OnTongue, Most: 1050 * units.Pound},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(v.Most.Text(units.Gallon, 0), "by the", v.AtMost.Limit)
	// Output:
	// 404 gal by the hitch
}

// What stands too near a burner's stack.
func ExampleClashes() {
	at := func(x units.Length) units.Position { return units.PositionAt(x * units.Inch) }
	stack := statics.BlockAround("stack", at(60), at(20), 10*units.Inch, 10*units.Inch, at(40), 30*units.Inch)
	clashes, err := statics.Clashes([]statics.Block{
		statics.BlockAround("burner", at(60), at(20), 20*units.Inch, 20*units.Inch, at(20), 20*units.Inch),
		statics.BlockAround("fuel tank", at(84), at(30), 16*units.Inch, 16*units.Inch, at(20), 24*units.Inch),
	}, []statics.Zone{
		{Name: "stack", Kind: statics.Heat, Owner: "burner", Clearance: 18 * units.Inch, Block: &stack},
	}, 2*units.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range clashes {
		fmt.Println(c.A, "to", c.B, c.Distance.Text(units.Inch, 1), "of", c.Need.Text(units.Inch, 1))
	}
	// Output:
	// fuel tank to stack 11.0 in of 18.0 in
}
