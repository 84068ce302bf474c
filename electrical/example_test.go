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

// The thinnest cord for a vacuum motor 110 ft away.
func ExampleChooseCord() {
	best, ok, all, err := electrical.ChooseCord(electrical.CordNeed{
		Supply: 120 * units.Volt, Length: 110 * units.Foot, Temperature: units.Celsius(75), Carrying: 2,
		Current: 15 * units.Ampere, PowerFactor: 1, Continuous: 0.8, RunDrop: 0.05,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range all[2:5] {
		fmt.Printf("%v: carries %2.0f A, loses %.1f %%, passes %v\n", c.Gauge, c.Ampacity.In(units.Ampere), c.Run.Share.In(units.Percent), c.Passes())
	}
	fmt.Println(best.Gauge, ok)
	// Output:
	// 14 AWG: carries 18 A, loses 8.6 %, passes false
	// 12 AWG: carries 25 A, loses 5.4 %, passes false
	// 10 AWG: carries 30 A, loses 3.4 %, passes true
	// 10 AWG true
}

// A plate that tells its locked-rotor current, but not its power factor then.
func ExamplePlate_Load() {
	l, err := electrical.Plate{
		Name: "dump-pump", Starts: electrical.ByItself,
		Voltage: 115 * units.Volt, Current: 9.8 * units.Ampere, Input: 750 * units.Watt,
		LockedRotor: 34 * units.Ampere,
	}.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f W, %.0f VA running; %.0f VA starting, so at most %.0f W (%v)\n",
		l.Running.In(units.Watt), l.RunningApparent.In(units.VoltAmpere),
		l.StartingApparent.In(units.VoltAmpere), l.Starting.In(units.Watt), l.Basis)
	// Output:
	// 750 W, 1127 VA running; 3910 VA starting, so at most 3910 W (locked-rotor current of the plate)
}
