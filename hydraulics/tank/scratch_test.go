package tank

import (
	"fmt"
	"testing"
	"time"

	"example.com/washrig/hydraulics"
	"example.com/washrig/units"
)

func TestScratch(t *testing.T) {
	fl := hydraulics.Fluid{Density: 998.2, Viscosity: 1e-3}
	s := &System{Fluid: fl, Kinds: []string{"rec"},
		Tanks: []Tank{{Name: "a", Shape: UprightOf(240*units.Gallon, 30*units.Inch)}, {Name: "b", Shape: UprightOf(160*units.Gallon, 30*units.Inch)}},
		Links: []Link{{Name: "x", From: 0, To: 1, Opening: Opening{Bore: 2.067 * units.Inch, Length: 1, K: 2}}},
		Fills: []Fill{{Name: "h", Tank: 0, Flow: 50 * units.GallonPerMinute}},
	}
	t0 := time.Now()
	o, err := s.Run([]Content{{Volume: 10 * units.Gallon}, {Volume: 100 * units.Gallon, Parts: []units.Volume{100 * units.Gallon}}}, 3600, RunOptions{})
	fmt.Println(err, time.Since(t0))
	fmt.Printf("%+v\n", o)
	sp, err := s.Spread([]Content{{Volume: 120 * units.Gallon}, {Volume: 80 * units.Gallon}})
	fmt.Printf("%+v %v\n", sp, err)
	x, err := SteadyCrossing(50*units.GallonPerMinute, s.Tanks[0].Shape.Area, s.Tanks[1].Shape.Area, s.Links[0].Opening, fl)
	fmt.Printf("%+v %v\n", x, err)
	t0 = time.Now()
	q, full, err := s.LargestFill([]Content{{}, {}}, 0, 0.95, 200*units.GallonPerMinute)
	fmt.Println(q.In(units.GallonPerMinute), full, err, time.Since(t0))
	s.Fills = nil
	s.Draws = []Draw{{Tank: 0, Flow: 7 * units.GallonPerMinute, Port: Point{Height: 0.02}}}
	st, err := s.Stranded([]Content{{Volume: 240 * units.Gallon}, {Volume: 160 * units.Gallon}}, 0)
	fmt.Printf("%+v %v\n", st, err)
	s.Draws = nil
	o, err = s.Run([]Content{{Volume: 200 * units.Gallon}, {Volume: 0 * units.Gallon}}, 36000, RunOptions{})
	fmt.Printf("%+v %v\n", o, err)
}
