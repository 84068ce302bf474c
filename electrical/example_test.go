package electrical_test

import (
	"fmt"
	"strings"

	"example.com/washrig/electrical"
	"example.com/washrig/units"
)

// The start card of a portable set that feeds two vacuum motors and a dump pump.
func ExampleSource_Carry() {
	loads := []electrical.Load{
		{Name: "vacuum-left", Running: 1100 * units.Watt, Starting: 2000 * units.Watt, Starts: electrical.ByHand},
		{Name: "vacuum-right", Running: 1100 * units.Watt, Starting: 2000 * units.Watt, Starts: electrical.ByHand},
		{Name: "dump-pump", Running: 750 * units.Watt, Starting: 2000 * units.Watt, Starts: electrical.ByItself},
	}
	set := electrical.Source{
		Name: "portable", Kind: electrical.PortableSynchronous,
		Rated: 4800 * units.Watt, Start: 5800 * units.Watt,
	}
	r, err := set.Carry(loads, 0.80)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, st := range r.Starts.Best.Steps {
		fmt.Printf("%-12s peak %4.0f W, then %4.0f W\n", strings.Join(st.Start, "+"), st.Peak.Power.In(units.Watt), st.After.Power.In(units.Watt))
	}
	fmt.Printf("start %.0f of %.0f W (%v), restart %.0f W\n",
		r.Starts.Best.Peak.Power.In(units.Watt), r.Limits.Start.In(units.Watt), r.Limits.StartBound, r.Starts.Restart.Peak.Power.In(units.Watt))
	// Output:
	// vacuum-left  peak 2000 W, then 1100 W
	// vacuum-right peak 3100 W, then 2200 W
	// dump-pump    peak 4200 W, then 2950 W
	// start 4200 of 4640 W (engine), restart 6000 W
}

// A start below running, or none at all, is an error that names the field.
func ExampleStarts_missing() {
	_, err := electrical.Starts([]electrical.Load{
		{Name: "burner", Running: 650 * units.Watt, Starts: electrical.ByItself},
	})
	fmt.Println(err)
	ty, _ := electrical.TypicalStart(electrical.BurnerSet)
	fmt.Printf("usual: %.1f to %.1f times\n", float64(ty.Low), float64(ty.High))
	// Output:
	// loads[burner].starting: required value not given (want the most it draws while starting, from the plate or a clamp meter)
	// usual: 1.5 to 3.0 times
}

// The burner stays on the belt generator, the vacuum motors on the portable;
// the dump pump's plug can be moved.
func ExampleAssign() {
	a, err := electrical.Assign(electrical.PlugPlan{
		Loads: []electrical.Load{
			{Name: "burner", Running: 650 * units.Watt, Starting: 1100 * units.Watt, Starts: electrical.ByItself},
			{Name: "vacuum", Running: 1100 * units.Watt, Starting: 2000 * units.Watt, Starts: electrical.ByHand},
			{Name: "dump-pump", Running: 750 * units.Watt, Starting: 2000 * units.Watt, Starts: electrical.ByItself},
		},
		Places: []electrical.Place{
			{Name: "belt", Limits: electrical.Limits{Rated: 2400 * units.Watt, Start: 3000 * units.Watt}},
			{Name: "portable", Limits: electrical.Limits{Rated: 3800 * units.Watt, Start: 4600 * units.Watt}},
		},
		Choices: []electrical.Choice{
			{Load: "burner", Places: []string{"belt"}},
			{Load: "vacuum", Places: []string{"portable"}},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for x := range a.Passing() {
		fmt.Printf("dump pump on %s leaves %.0f %%\n", x.Places[2], x.Margin.In(units.Percent))
	}
	// Output:
	// dump pump on portable leaves 33 %
}
