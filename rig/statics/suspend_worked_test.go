package statics_test

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// A stiff bar hinged at one end, hung on equal springs at a and 2a, loaded at 3a:
// the springs stretch as 1 : 2, so 5 k·a²·θ = 3 P·a and they carry 3P/5 and 6P/5.
// The hinge then pulls down with 4P/5.
func TestSuspend_barOnSprings(t *testing.T) {
	trailer := statics.Trailer{AxleGroup: metres(3), Axles: 2, Spacing: 2}
	s := statics.Suspension{Springs: []statics.Spring{{Load: 1000, Travel: 0.05}, {Load: 1000, Travel: 0.05}}}
	got, err := statics.Suspend(trailer, []statics.Mass{{Name: "load", Mass: 1000, X: metres(6)}}, s)
	if err != nil {
		t.Fatal(err)
	}
	c := worked.Case{
		Source: "stiff bar hinged at one end on two equal springs, a standard example of strength of materials, solved by hand: 3P/5, 6P/5 and −4P/5",
		Status: worked.Identity,
		Given:  []string{"springs at 2 m and 4 m", "load of 1000 kg at 6 m", "ball at the height of the unloaded frame"},
	}
	c.Question, c.Printed, c.Got = "A load hangs behind two sprung axles: what does the front axle carry?", "600.0 kg", float64(got.Axles[0].Load)
	worked.Check(t, c)
	c.Question, c.Printed, c.Got = "A load hangs behind two sprung axles: what does the rear axle carry?", "1200.0 kg", float64(got.Axles[1].Load)
	worked.Check(t, c)
	c.Question, c.Printed, c.Got = "A load hangs behind two sprung axles: what is on the ball?", "-800.0 kg", float64(got.Tongue)
	worked.Check(t, c)
}

// A ball 2 in too high on torsion axles that sink 2 in under 3,000 lb.
func TestSuspend_highBall(t *testing.T) {
	trailer := statics.Trailer{AxleGroup: inches(150), Axles: 2, Spacing: 34 * units.Inch}
	s := statics.Suspension{Springs: []statics.Spring{{Load: pounds(3000), Travel: 2 * units.Inch}, {Load: pounds(3000), Travel: 2 * units.Inch}}}
	load := []statics.Mass{{Name: "rig", Mass: pounds(6000), X: inches(132)}}
	level, err := statics.LevelBall(trailer, load, s)
	if err != nil {
		t.Fatal(err)
	}
	// Level: both springs carry 6000·132/300 = 2640 lb, sunk 1.76 in.
	c := worked.Case{Status: worked.Identity, Given: []string{"6000 lb at 132 in", "axles at 133 and 167 in, each 1500 lb/in"}}
	c.Source = "equal springs share alike when the frame is level, by hand: 6000·132/300/1500"
	c.Question, c.Printed, c.Got = "How far below its unloaded height does the ball of a level frame stand?", "-1.7600 in", level.In(units.Inch)
	worked.Check(t, c)

	s.Ball = level + 2*units.Inch
	got, err := statics.Suspend(trailer, load, s)
	if err != nil {
		t.Fatal(err)
	}
	// b = 0.24 in. φ = (792000 + 0.24·1500·300)/(1500·(133² + 167²)) = 900000/68367000
	// = 0.0131643; front 1500·(133 φ − 0.24) = 2266.3 lb, rear 1500·(167 φ − 0.24) = 2937.6 lb.
	c.Given = append(c.Given, "ball 2 in above that of a level frame")
	c.Source = "moments about the ball with springs in proportion to their travel, by hand: φ = 900000/68367000"
	c.Question, c.Printed, c.Got = "The ball stands 2 in too high: what does the front axle carry?", "2266.3 lb", got.Axles[0].Load.In(units.Pound)
	worked.Check(t, c)
	c.Question, c.Printed, c.Got = "The ball stands 2 in too high: what does the rear axle carry?", "2937.6 lb", got.Axles[1].Load.In(units.Pound)
	worked.Check(t, c)
	c.Question, c.Printed, c.Got = "The ball stands 2 in too high: how far is the frame nose-up?", "0.7543 °", got.Nose.In(units.Degree)
	worked.Check(t, c)
}
