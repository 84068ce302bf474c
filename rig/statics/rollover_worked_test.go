package statics_test

import (
	"fmt"
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func TestStaticStabilityFactor_agencyDefinition(t *testing.T) {
	f, err := statics.StaticStabilityFactor(80*units.Inch, 40*units.Inch)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A track of 80 in and a centre of mass 40 in up: which static stability factor?",
		Source:   "U.S. National Highway Traffic Safety Administration, rulemaking on rollover resistance (49 CFR part 575), chapter V: half the track over the height of the centre of gravity",
		Status:   worked.Published, Given: []string{"T = 80 in", "h = 40 in"}, Printed: "1.00", Got: float64(f),
	})
	st, err := statics.Rollover(statics.Trailer{AxleGroup: inches(120), Axles: 1, Track: 80 * units.Inch},
		[]statics.Mass{{Name: "box", Mass: 1000, X: inches(110), Y: inches(0), Z: inches(40)}}, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "On which side slope does a rigid trailer of that factor tip?",
		Source:   "arc tangent of the factor", Status: worked.Identity, Given: []string{"T = 80 in", "h = 40 in"}, Printed: "45.000 °", Got: st.SideSlope.In(units.Degree),
	})
}

// A rigid trailer hitched by a ball turns about the line from ball to outer wheel.
func TestRollover_hitchedByHand(t *testing.T) {
	st, err := statics.Rollover(statics.Trailer{AxleGroup: feet(12), Axles: 2, Track: 6 * units.Foot, CouplerHeight: 1.5 * units.Foot},
		[]statics.Mass{{Name: "box", Mass: 1000, X: feet(10.5), Y: feet(0), Z: feet(3)}}, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A hitched rigid trailer with an eighth of its weight on the ball: at which lateral acceleration does it tip?",
		Source:   "moments about the line from ball to outer wheel, by hand: 6·(1 − 1/8)/(2·(3 − 1.5/8)) = 5.25/5.625",
		Status:   worked.Identity, Given: []string{"track 6 ft", "centre of mass 3 ft up, 10.5 ft aft", "axles 12 ft aft", "ball 1.5 ft up"},
		Printed: "0.9333 g", Got: st.Threshold.In(units.StandardGravity),
	})
}

// A box tank on a light trailer: the worst fill depends on the shape of the tank.
// The printed thresholds follow from moments with the closed form of the liquid
// shift. Half full at about 1 g the surface runs through floor and lid of both
// tanks: with width w, height h, half the width wet and tan θ = a, the shift is
// w/4 − h²/(12 w·a²) and the height h/2 − h²/(6 w·a). For the low wide tank
// 4100·(2.9 − 2.5 a) + 1201·(2.9 − 1.375 + 0.0297/a² − a·(2.7 − 0.0594/a)) = 0
// at a = 1.025; taking the small-tilt shift w²/(12 h)·a there would be wrong.
func TestRollover_tankShapes(t *testing.T) {
	for _, c := range []struct {
		wide, tall         float64
		empty, half, worst string
		full               string
		at                 string
	}{
		{5.5, 1.4, "1.160 g", "1.025 g", "1.02 g", "1.127 g", "part full"},
		{3.5, 2.75, "1.160 g", "1.045 g", "1.03 g", "1.027 g", "full"},
	} {
		length := 288 * 231 / 1728.0 / c.wide / c.tall
		tank := statics.Tank{
			Name: "fresh", Density: 8.34 * units.PoundPerGallon, X: feet(10), Y: feet(0), Floor: feet(2),
			Vessel: statics.Vessel{Shape: statics.Box, Length: units.Length(length) * units.Foot, Width: units.Length(c.wide) * units.Foot, Height: units.Length(c.tall) * units.Foot},
		}
		trailer := statics.Trailer{AxleGroup: feet(12), Axles: 2, Track: 5.8 * units.Foot}
		dry := []statics.Mass{{Name: "dry", Mass: pounds(4100), X: feet(11), Y: feet(0), Z: feet(2.5)}}
		given := []string{fmt.Sprintf("288 gal, %g ft wide, %g ft tall, floor 2.0 ft up", c.wide, c.tall), "dry 4,100 lb at 2.5 ft", "track 5.8 ft"}
		check := func(question string, least, most units.Ratio, printed string) statics.Stability {
			t.Helper()
			st, err := statics.Rollover(trailer, dry, nil, []statics.Filling{{Tank: tank, Least: least, Most: most}})
			if err != nil {
				t.Fatal(err)
			}
			worked.Check(t, worked.Case{Question: question, Source: "moments about the outer wheels with the closed form of the liquid's shift, by hand", Status: worked.Identity, Given: given, Printed: printed, Got: st.Threshold.In(units.StandardGravity)})
			return st
		}
		check("At which lateral acceleration does the trailer tip with the tank empty?", 0, 0, c.empty)
		check("At which lateral acceleration does the trailer tip with the tank half full?", 0.5, 0.5, c.half)
		check("At which lateral acceleration does the trailer tip with the tank full?", 1, 1, c.full)
		st := check("At which lateral acceleration does the trailer tip at the worst fill?", 0, 1, c.worst)
		at := "part full"
		if st.Levels[0] == 1 {
			at = "full"
		}
		worked.Text(t, worked.TextCase{Question: "Which fill is the worst for tipping?", Source: "scan of the fills", Status: worked.Identity, Given: given, Printed: c.at, Got: at})
	}
}
