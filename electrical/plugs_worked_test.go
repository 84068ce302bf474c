package electrical_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// twoSources is a belt generator for the burner and a portable set that has
// lost 20 % to altitude and heat; the dump pump's plug can be moved.
func twoSources() electrical.PlugPlan {
	return electrical.PlugPlan{
		Loads: append(washSide(), electrical.Load{Name: "burner", Running: 650, Starting: 1100, Starts: electrical.ByItself}),
		Places: []electrical.Place{
			{Name: "belt", Limits: electrical.Limits{Rated: 2400, Start: 3000}},
			{Name: "portable", Limits: electrical.Limits{Rated: 3856, Start: 4659}},
		},
		Choices: []electrical.Choice{
			{Load: "burner", Places: []string{"belt"}},
			{Load: "vacuum-left", Places: []string{"portable"}},
			{Load: "vacuum-right", Places: []string{"portable"}},
		},
	}
}

var twoSourcesGiven = []string{
	"belt generator 2,400 W running, 3,000 W starting, carries the burner",
	"portable at the site 3,856 W running, 4,659 W starting, carries both vacuum motors",
	"burner 650/1,100 W and dump pump 750/2,000 W, by themselves", "vacuum motors 1,100/2,000 W each, by hand",
}

func TestAssign_worked(t *testing.T) {
	a, err := electrical.Assign(twoSources())
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for x := range a.Passing() {
		all = append(all, fmt.Sprintf("%s on %s", "dump pump", x.Places[2]))
	}
	worked.Text(t, worked.TextCase{
		Question: "The dump pump's plug can go to the belt generator or to the portable: which positions pass?",
		Source:   "hand sum: on the belt 1,100 + 2,000 = 3,100 W is more than 3,000; on the portable 2,200 + 2,000 = 4,200 W is less than 4,659",
		Status:   worked.Identity, Given: twoSourcesGiven,
		Printed: "dump pump on portable", Got: strings.Join(all, ", "),
	})
	best, _ := a.Best()
	worked.Check(t, worked.Case{
		Question: "And how much is left there?",
		Source:   "hand sum: (4,659 − 4,200)/4,659", Status: worked.Identity, Given: twoSourcesGiven,
		Printed: "9.9 %", Got: best.Margin.In(units.Percent),
	})

	// The stage that decides is named: vacuums and pump together, or the burner alone.
	staged := twoSources()
	staged.Choices = append(staged.Choices, electrical.Choice{Load: "dump-pump", Places: []string{"portable"}})
	staged.Stages = []electrical.Stage{{Name: "heat up", On: []string{"burner"}}, {Name: "recover", On: []string{"vacuum-left", "vacuum-right", "dump-pump"}}}
	a, err = electrical.Assign(staged)
	if err != nil {
		t.Fatal(err)
	}
	best, _ = a.Best()
	for i, want := range []string{"heat up", "recover"} {
		if u := best.Uses[i]; u.RunningStage != want || u.PeakStage != want {
			t.Errorf("%s: decided by the stages %q and %q, want %q", u.Place, u.RunningStage, u.PeakStage, want)
		}
	}

	three := electrical.PlugPlan{Places: []electrical.Place{
		{Name: "left", Limits: electrical.Limits{Rated: 2400, Start: 3000}},
		{Name: "right", Limits: electrical.Limits{Rated: 2400, Start: 3000}},
	}}
	for _, name := range []string{"lights", "vacuum", "pump", "heater"} {
		w := map[string]units.Power{"lights": 200, "vacuum": 1100, "pump": 1500, "heater": 1500}[name]
		three.Loads = append(three.Loads, electrical.Load{Name: name, Running: w, Starting: w, Starts: electrical.ByHand})
	}
	b, err := electrical.Assign(three)
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"two sets of 2,400 W running", "lights 200 W, vacuum 1,100 W, pump 1,500 W, heater 1,500 W"}
	worked.Text(t, worked.TextCase{
		Question: "4,300 W on two sets of 2,400 W will not go: which loads are the trouble?",
		Source:   "hand sum: of 1,100, 1,500 and 1,500 two share a set and need 2,600 W or more; any two loads fit, and so do three with the lights",
		Status:   worked.Identity, Given: given,
		Printed: "vacuum, pump, heater", Got: strings.Join(b.Unplaceable(), ", "),
	})
	worked.Text(t, worked.TextCase{
		Question: "And what is the least to leave out?",
		Source:   "hand sum: one of the three; of equals the one listed first", Status: worked.Identity, Given: given,
		Printed: "vacuum", Got: strings.Join(b.LeaveOut(), ", "),
	})
}

func TestLeaveOff_worked(t *testing.T) {
	plan := electrical.PlugPlan{
		Loads: []electrical.Load{
			{Name: "vacuum", Running: 1200, Starting: 2000, Starts: electrical.ByHand},
			{Name: "burner", Running: 600, Starting: 1100, Starts: electrical.ByItself},
		},
		Places: []electrical.Place{
			{Name: "large", Limits: electrical.Limits{Rated: 4800, Start: 5800}},
			{Name: "small", Limits: electrical.Limits{Rated: 2400, Start: 4000}},
		},
		Stages: []electrical.Stage{{Name: "wash", On: []string{"vacuum", "burner"}, Duration: 4 * units.Hour}},
	}
	a, err := electrical.Assign(plan)
	if err != nil {
		t.Fatal(err)
	}
	s, err := a.LeaveOff([]electrical.Set{
		{Place: "large", Idle: 0.2 * units.GallonPerHour, Rated: 0.7 * units.GallonPerHour, Noise: 74},
		{Place: "small", Idle: 0.1 * units.GallonPerHour, Rated: 0.3 * units.GallonPerHour, Noise: 68},
	})
	if err != nil {
		t.Fatal(err)
	}
	// Best of all: vacuum on the large set, burner on the small one.
	off := s[1]
	if off.Place != "small" || !off.Passes {
		t.Fatalf("%+v", s)
	}
	given := []string{"large set 4,800 W, 0.2 to 0.7 gph, 74 dB(A)", "small set 2,400 W, 0.1 to 0.3 gph, 68 dB(A)", "vacuum 1,200 W on the large and burner 600 W on the small set, 4 h", "Willans line q = idle + (rated − idle)·P/P rated"}
	for _, c := range []struct {
		question, sum, printed string
		got                    float64
	}{
		{"The small set stays in the truck and the large one carries both: how many engine hours does that save?", "one set less for 4 h", "4.0 h", off.Hours.In(units.Hour)},
		{"And how much fuel?", "4 h × [(0.325 + 0.15) − 0.3875] gph; 0.2 + 0.5 × 1,200/4,800 = 0.325, 0.1 + 0.2 × 600/2,400 = 0.15, 0.2 + 0.5 × 1,800/4,800 = 0.3875", "0.350 gal", off.Fuel.In(units.Gallon)},
		{"And how much quieter is it?", "10·log(10^7.4 + 10^6.8) − 74", "1.0 dB", off.Noise},
	} {
		worked.Check(t, worked.Case{Question: c.question, Source: "hand sum: " + c.sum, Status: worked.Identity, Given: given, Printed: c.printed, Got: c.got})
	}
	worked.Check(t, worked.Case{
		Question: "Two sets of 70 dB(A) side by side: how loud?",
		Source:   "two equal incoherent sources add 10·log 2 = 3.0 dB", Status: worked.Identity, Given: []string{"70 dB(A) each"},
		Printed: "73.0 dB", Got: electrical.SumLevels(70, 70),
	})
}
