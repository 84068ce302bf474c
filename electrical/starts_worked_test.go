package electrical_test

import (
	"strings"
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// engineSide is a belt generator that carries everything: the burner and the
// dump pump start by themselves.
func engineSide() []electrical.Load {
	return append(washSide(), electrical.Load{Name: "burner", Running: 650, Starting: 1100, Starts: electrical.ByItself})
}

const startSum = "hand sum: what runs plus the start of what starts"

func TestStarts_worked(t *testing.T) {
	portable, err := electrical.Starts(washSide())
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"two vacuum motors 1,100 W running, 2,000 W starting, by hand", "dump pump 750 W running, 2,000 W starting, on its float"}
	for _, c := range []struct {
		question, sum, printed string
		got                    units.Power
	}{
		{"A portable set feeds two vacuum motors and a dump pump: what do they draw together?", "2 × 1,100 + 750", "2950 W", portable.Running.Power},
		{"What is the greatest start it may meet?", "the pump's float trips last: 2 × 1,100 + 2,000", "4200 W", portable.Worst.Peak.Power},
		{"Does a better order help?", "no: the float trips last in the best order too", "4200 W", portable.Best.Peak.Power},
		{"The breaker trips and is set again with every switch left on: what then?", "3 × 2,000", "6000 W", portable.Restart.Peak.Power},
	} {
		worked.Check(t, worked.Case{
			Question: c.question, Source: startSum + ", " + c.sum, Status: worked.Identity,
			Given: given, Printed: c.printed, Got: c.got.In(units.Watt),
		})
	}

	all, err := electrical.Starts(engineSide())
	if err != nil {
		t.Fatal(err)
	}
	given = append(given, "burner 650 W running, 1,100 W starting, by itself with the flow")
	for _, c := range []struct {
		question, sum, printed string
		got                    units.Power
	}{
		{"One belt generator carries the burner as well: what do they draw together?", "650 + 2 × 1,100 + 750", "3600 W", all.Running.Power},
		{"Burner and dump pump happen to start together, on top of both vacuum motors: what is the peak?", "2 × 1,100 + 1,100 + 2,000", "5300 W", all.Worst.Peak.Power},
		{"And all four at once?", "1,100 + 3 × 2,000", "7100 W", all.Restart.Peak.Power},
	} {
		worked.Check(t, worked.Case{
			Question: c.question, Source: startSum + ", " + c.sum, Status: worked.Identity,
			Given: given, Printed: c.printed, Got: c.got.In(units.Watt),
		})
	}

	// 900, 1,500 and 600 W of surge above running: the greatest surge first.
	hand, err := electrical.Starts([]electrical.Load{
		{Name: "vacuum", Running: 1100, Starting: 2000, Starts: electrical.ByHand},
		{Name: "pump", Running: 750, Starting: 2250, Starts: electrical.ByHand},
		{Name: "fan", Running: 300, Starting: 900, Starts: electrical.ByHand},
	})
	if err != nil {
		t.Fatal(err)
	}
	given = []string{"vacuum motor 1,100 W running, 2,000 W starting", "pump 750 W, 2,250 W", "fan 300 W, 900 W", "all by hand"}
	worked.Text(t, worked.TextCase{
		Question: "Three motors on one set, all by hand: which goes first?",
		Source:   "E. L. Lawler, Management Science 19(5), 1973: least cost last; without precedences the greatest surge above running goes first (1,500, 900, 600 W)",
		Status:   worked.Identity, Given: given,
		Printed: "pump, vacuum, fan", Got: strings.Join(hand.Best.Order(), ", "),
	})
	worked.Check(t, worked.Case{
		Question: "And what does that order ask of the set?",
		Source:   "hand sum: the greatest of 2,250, 750 + 2,000 and 1,850 + 900", Status: worked.Identity, Given: given,
		Printed: "2750 W", Got: hand.Best.Peak.Power.In(units.Watt),
	})
	worked.Check(t, worked.Case{
		Question: "And the wrong order?",
		Source:   "hand sum: the pump last, 1,400 + 2,250", Status: worked.Identity, Given: given,
		Printed: "3650 W", Got: hand.Worst.Peak.Power.In(units.Watt),
	})
}

func TestSource_worked(t *testing.T) {
	// Plate derating in common use: 3.5 % per 1,000 ft, 1 % per 10 °F above 77 °F.
	site := units.Ratio((1 - 0.035*5.2) * (1 - 0.01*1.8))
	set := electrical.Source{Name: "portable", Kind: electrical.PortableSynchronous, Rated: 4800, Start: 5800}
	r, err := set.Carry(washSide(), site)
	if err != nil {
		t.Fatal(err)
	}
	const practice = "derating 3.5 % per 1,000 ft and 1 % per 10 °F above 77 °F, no publication behind it: 0.818 × 0.982 = 0.8033"
	given := []string{"plate 4,800 W running, 5,800 W starting", "5,200 ft, 95 °F"}
	worked.Check(t, worked.Case{
		Question: "A portable set of 4,800 W goes to a site at 5,200 ft on a 95 °F afternoon: what does it carry?",
		Source:   practice, Status: worked.CommonPractice, Given: given,
		Printed: "3856 W", Got: r.Limits.Rated.In(units.Watt),
	})
	worked.Check(t, worked.Case{
		Question: "And what can it start?",
		Source:   practice, Status: worked.CommonPractice, Given: given,
		Printed: "4659 W", Got: r.Limits.Start.In(units.Watt),
	})
	worked.Check(t, worked.Case{
		Question: "What is left when the dump pump starts on top of both vacuum motors?",
		Source:   "(4,659 − 4,200)/4,659", Status: worked.CommonPractice, Given: given,
		Printed: "10 %", Got: r.Best.In(units.Percent),
	})

	belt := electrical.Source{Name: "belt", Kind: electrical.EngineDriven, Rated: 2400, Start: 3000}
	r, err = belt.Carry([]electrical.Load{
		{Name: "burner", Running: 650, Starting: 1100, Starts: electrical.ByItself},
		{Name: "dump-pump", Running: 750, Starting: 2000, Starts: electrical.ByItself},
	}, 0)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "The dump pump's plug moves to the belt generator beside the burner: how far short is its start?",
		Source:   "hand sum: (3,000 − 1,100 − 2,000)/3,000", Status: worked.Identity,
		Given:   []string{"belt generator 3,000 W starting", "burner 1,100 W and dump pump 2,000 W starting together, both by themselves"},
		Printed: "-3.3 %", Got: r.Best.In(units.Percent),
	})
}

func TestShaftPower_worked(t *testing.T) {
	for _, c := range []struct{ watts, printed string }{{"650", "1.16 hp"}, {"3600", "6.45 hp"}} {
		p, err := electrical.ShaftPower(units.MustParsePower(c.watts+" W"), 0.78, 0.96)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "What does a belt generator at " + c.watts + " W take from the washer's engine?",
			Source:   "definition of efficiency, " + c.watts + "/(0.78 × 0.96 × 745.7)", Status: worked.Identity,
			Given:   []string{"generator 0.78", "belt 0.96", c.watts + " W electric"},
			Printed: c.printed, Got: p.In(units.Horsepower),
		})
	}

	r, err := electrical.Starts(engineSide())
	if err != nil {
		t.Fatal(err)
	}
	steps, err := electrical.ShaftSteps(r.Worst, 0.78, 0.96)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "What does the engine feel when burner and dump pump start last?",
		Source:   "5,300/(0.78 × 0.96 × 745.7)", Status: worked.Identity,
		Given:   []string{"generator 0.78", "belt 0.96", "5,300 W at the peak"},
		Printed: "9.49 hp", Got: steps[len(steps)-1].Peak.In(units.Horsepower),
	})
}

func TestTypicalStart_worked(t *testing.T) {
	for _, c := range []struct {
		kind      electrical.LoadKind
		low, high string
	}{
		{electrical.UniversalMotor, "1.5", "2.0"},
		{electrical.CapacitorStartMotor, "2.5", "4.0"},
		{electrical.SplitPhaseMotor, "4", "6"},
		{electrical.CompressorMotor, "3", "6"},
	} {
		ty, err := electrical.TypicalStart(c.kind)
		if err != nil {
			t.Fatal(err)
		}
		for _, end := range []struct {
			name, printed string
			got           units.Ratio
		}{{"least", c.low, ty.Low}, {"most", c.high, ty.High}} {
			worked.Check(t, worked.Case{
				Question: "The plate of a " + c.kind.String() + " does not say its start: how many times its running watts is the " + end.name + " to expect?",
				Source:   "generator sizing habit, no publication behind it", Status: worked.CommonPractice,
				Printed: end.printed, Got: float64(end.got),
			})
		}
	}
}
