package statics_test

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func TestFederalCriteria(t *testing.T) {
	for _, c := range []struct {
		name    string
		got     statics.Criteria
		printed [4]string
		clause  string
	}{
		{"breaking strength", statics.FederalBreaking(), [4]string{"0.8 g", "0.5 g", "0.5 g", "20 %"}, "49 CFR 393.102(a)(1) and (b)"},
		{"working load limit", statics.FederalWorking(), [4]string{"0.435 g", "0.5 g", "0.25 g", "20 %"}, "49 CFR 393.102(a)(2) and (b)"},
	} {
		check := func(way, printed string, got float64) {
			worked.Check(t, worked.Case{Question: "Which acceleration must the " + c.name + " of a tie-down take " + way + "?", Source: c.clause, Status: worked.Published, Printed: printed, Got: got})
		}
		check("forward", c.printed[0], c.got.Forward.In(units.StandardGravity))
		check("rearward", c.printed[1], c.got.Rearward.In(units.StandardGravity))
		check("sideways", c.printed[2], c.got.Sideways.In(units.StandardGravity))
		check("upward, as a share of the weight", c.printed[3], 100*c.got.Upward.In(units.StandardGravity))
	}
}

func TestTieDown_fullTank(t *testing.T) {
	// 240 gal of water and a shell of 150 lb: 2151.6 lb. Four bolts; centre 1.1 ft up,
	// bolts 4 ft apart fore and aft, 3 ft across.
	h, err := statics.TieDown(pounds(240*8.34+150), statics.FederalBreaking(), statics.Tie{Anchors: 4, Height: 1.1 * units.Foot, Length: 1.5 * units.Foot, Width: 3 * units.Foot})
	if err != nil {
		t.Fatal(err)
	}
	c := worked.Case{Status: worked.Identity, Given: []string{"240 gal of 8.34 lb/gal and a shell of 150 lb", "four bolts, no friction counted", "centre 1.1 ft up, bolt rows 1.5 ft apart fore and aft"}}
	c.Source = "0.8 × 2151.6 lb, by hand"
	c.Question, c.Printed, c.Got = "What must hold a full tank forward?", "1721.3 lbf", h.Forward.Force.In(units.PoundForce)
	worked.Check(t, c)
	c.Source = "a quarter of 0.8 × 2151.6 lb, by hand"
	c.Question, c.Printed, c.Got = "What shear is in each bolt of a full tank, forward?", "430.3 lbf", h.Forward.Anchor.In(units.PoundForce)
	worked.Check(t, c)
	c.Source = "moments about the front row, by hand: 2151.6·(0.8·1.1 − 0.75)/1.5"
	c.Question, c.Printed, c.Got = "What lifts at the rear row of bolts, forward?", "186.5 lbf", h.Forward.Uplift.In(units.PoundForce)
	worked.Check(t, c)
	if h.Rearward.Uplift != 0 || h.Sideways.Uplift != 0 {
		t.Errorf("lifts at 0.5 g: %+v", h)
	}
	// Two straps at 30°: along each 0.8·2151.6/(2·cos 30°), for the 20 % up
	// 0.2·2151.6/(2·sin 30°).
	h, err = statics.TieDown(pounds(2151.6), statics.FederalBreaking(), statics.Tie{Anchors: 2, Angle: 30 * units.Degree})
	if err != nil {
		t.Fatal(err)
	}
	c.Given = []string{"2151.6 lb", "two straps at 30° from the deck, no friction counted"}
	c.Source = "1721.28/(2·cos 30°), by hand"
	c.Question, c.Printed, c.Got = "What is the pull in each strap of a full tank, forward?", "993.8 lbf", h.Forward.Anchor.In(units.PoundForce)
	worked.Check(t, c)
	c.Source = "430.32/(2·sin 30°), by hand"
	c.Question, c.Printed, c.Got = "What is the pull in each strap of a full tank, upward?", "430.3 lbf", h.Upward.Anchor.In(units.PoundForce)
	worked.Check(t, c)
}
