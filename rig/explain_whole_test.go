package rig_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// stillNumbers are the numbers that no input moves, at the values where they stand still,
// and why. At any other value a number has an input.
var stillNumbers = map[rig.Path]still{
	"pumps[].relief_flow":            {[]float64{0}, "with a gun open the pump is far below the setting: half of it is not reached"},
	"pumps[].fault_relief_flow":      {[]float64{0}, "a relief valve that is shut by the fault passes nothing, and neither does one behind an open gun"},
	"tanks[].mixed_water":            {[]float64{0}, "nothing is in the tanks in that fill state"},
	"tanks[].drawn_rate":             {[]float64{0}, "no gun of the mode draws from it"},
	"tanks[].returned_rate":          {[]float64{0}, "nothing of the mode comes back to it"},
	"tanks[].day_make_up":            {[]float64{0}, "nothing is drawn from it in the day"},
	"tanks[].tip_over_level":         {[]float64{0, 1}, "the trailer tips soonest with the tank empty or full, which are the ends of its range"},
	"fuel_tanks[].tip_over_level":    {[]float64{0, 1}, "the trailer tips soonest with the tank empty or full, which are the ends of its range"},
	"fuel_tanks[].rate":              {[]float64{0}, "nothing that burns from it runs in the mode"},
	"recovery[].recovered_flow":      {[]float64{0}, "no gun that it picks up after is open in the state"},
	"recovery[].pick_up":             {[]float64{0}, "the motors do not make the air that carries water through hose and lift, even doubled one by one"},
	"recovery[].pick_up_low":         {[]float64{0}, "the motors do not make the air that carries water through hose and lift, even doubled one by one"},
	"recovery[].pick_up_high":        {[]float64{0}, "the motors do not make the air that carries water through hose and lift, even doubled one by one"},
	"heaters[].fuel_rate":            {[]float64{0}, "its burner stands in the mode"},
	"engines[].fuel_rate":            {[]float64{0}, "it stands in the mode"},
	"sources[].running":              {[]float64{0}, "nothing is plugged into it in the state"},
	"sources[].running_apparent":     {[]float64{0}, "nothing is plugged into it in the state"},
	"sources[].start_peak":           {[]float64{0}, "nothing is plugged into it in the state"},
	"sources[].start_peak_any_order": {[]float64{0}, "nothing is plugged into it in the state"},
	"sources[].start_apparent":       {[]float64{0}, "nothing is plugged into it in the state"},
	"sources[].restart_peak":         {[]float64{0}, "nothing is plugged into it in the state"},
	"outlets[].current":              {[]float64{0}, "nothing hangs on it in the state"},
	"direct_loads[].sustained_duty":  {[]float64{0, 1}, "the charging current carries it all the time, even half of it, or does not carry the others, even doubled"},
	"duty.noise_dose":                {[]float64{0}, "every level is below the one from which doses count"},
	"duty.noise_dose_niosh":          {[]float64{0}, "every level is below the one from which doses count"},
	"clearances[].needed":            {[]float64{0}, "boxes that no zone keeps apart may touch"},
	"fuel_clearances[].needed":       {[]float64{0}, "boxes that no zone keeps apart may touch"},
	"clearances[].distance":          {[]float64{0}, "the boxes touch or run into one another, far more than 1 %"},
	"fuel_clearances[].distance":     {[]float64{0}, "the boxes touch or run into one another, far more than 1 %"},
	"tie_downs[].sideways":           {[]float64{0}, "friction holds what the bend asks, even half of the friction"},
	"recovery[].fault_pick_up":       {[]float64{0}, "the motors that are left do not make the air that carries water, even doubled one by one"},
	"trailer.tip_over":               {[]float64{0}, "it tips where it stands, and one value halved or doubled does not right it"},
	"trailer.tip_over_any_fill":      {[]float64{0}, "it tips where it stands, and one value halved or doubled does not right it"},
	"fuel_tanks[].day":               {[]float64{0}, "nothing burns from it in the day"},
	"fuel_tanks[].carbon_dioxide":    {[]float64{0}, "nothing burns from it in the day"},
	"winter.weakest_glycol":          {[]float64{0}, "no antifreeze reaches the weakest part"},
	"winter.protects_to":             {[]float64{273.15}, "no antifreeze reaches the weakest part, which freezes as water does"},
	"pumps[].strainer_spill":         {[]float64{0}, "it draws from no tank, so that nothing can run out"},
	"pumps[].coupled_residual":       {nil, "what rounding leaves of the equations is nothing anybody gave"},
	"heaters[].air_number":           {nil, "without a fan's motor the shutter's air is the usual one in the hottest hour, where it was set"},
}

// A still number is any value where at is empty.
type still struct {
	at  []float64
	why string
}

// unexplained reports a trace that says nothing although its number is not one of those.
func unexplained(t *rig.Trace) error {
	if len(t.Inputs)+len(t.Uses) > 0 {
		return nil
	}
	if x, listed := stillNumbers[t.Reading.Metric.Path]; listed && (x.at == nil || slices.Contains(x.at, t.Reading.Value.SI())) {
		return nil
	}
	return fmt.Errorf("%s = %v in %v has neither an input nor a number it is computed from", t.Reading.Path(), t.Reading.Value, t.Reading.State)
}

// Every number of the demo rigs, in every state, says what decides it.
func TestExplain_everyNumber(t *testing.T) {
	t.Parallel()
	for _, name := range demo.Names() {
		_, err := rig.EveryTrace(demoModel(t, name), func(tr *rig.Trace) {
			if err := unexplained(tr); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// So does every number of whole random rigs.
func TestWholeRigs_everyNumber(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		if g.Pick(40) != 0 {
			return nil // a rig is solved once for each of its values and words
		}
		_, m, _, err := wholeRig(g)
		if err != nil {
			return err
		}
		var first error
		if _, err := rig.EveryTrace(m, func(tr *rig.Trace) {
			if first == nil {
				first = unexplained(tr)
			}
		}); err != nil {
			return err
		}
		return first
	})
}

// What is listed is true: a new rig that says another word has another number, or none,
// in the state that reads the same. Other is what the specification may say instead.
func TestExplain_listedWordsDecide(t *testing.T) {
	t.Parallel()
	shelf, err := demo.Shelf()
	if err != nil {
		t.Fatal(err)
	}
	m := demoModel(t, "B")
	claims := map[rig.Path][]rig.Reading{} // numbers that name the word
	if _, err := rig.EveryTrace(m, func(tr *rig.Trace) {
		for _, in := range tr.Inputs {
			if in.Word != "" {
				claims[in.Path] = append(claims[in.Path], tr.Reading)
			}
		}
	}); err != nil {
		t.Fatal(err)
	}
	if len(claims) < 40 {
		t.Fatalf("%d words are named", len(claims))
	}
	for p, readings := range claims {
		moved := make([]bool, len(readings))
		for _, word := range rig.OtherWords(m, p) {
			s := m.Written()
			if s.Apply(rig.Set(p, word)) != nil {
				continue
			}
			n, err := rig.New(s, shelf)
			if err != nil {
				continue
			}
			r, err := n.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
			if err != nil {
				continue
			}
			for i, x := range readings {
				state, err := n.ParseState(x.State.String())
				if err != nil {
					continue
				}
				y, ok := r.At(x.Path(), state)
				moved[i] = moved[i] || !ok || y.Value != x.Value
			}
		}
		for i, x := range readings {
			if !moved[i] {
				t.Errorf("%s in %v is %v whatever %s says", x.Path(), x.State, x.Value, p)
				break
			}
		}
	}
}

// A number that stands still within 1 % is traced further: the other way, from afar, and
// to what the specification does not say.
func TestExplain_farAndSilent(t *testing.T) {
	t.Parallel()
	for _, x := range []struct {
		name    string
		path    rig.Path
		state   string
		changes []rig.Change
		input   rig.Path
		factor  float64
		say     string // a word that is said instead
	}{
		// Of two motors of 1,100 W that start with 2,000 W the first start is free to be
		// either's, so that the peak of 3,100 W falls with one start and does not rise.
		{"one way only", "sources[portable].start_peak", "site=afternoon plugs=dump-pump>belt", nil, "loads[vacuum-1].starting", 0, ""},
		// Nothing passes the relief valve of the pump until it is set far lower.
		{"from afar", "pumps[main].relief_flow", "guns=none heat=off", nil, "pumps[main].relief.setting", 0.5, ""},
		{"silence", "heaters[heater].flow_guards", "any", []rig.Change{rig.Set("heaters[heater].part", "")}, "heaters[heater].flow_switch", 0, "yes"},
	} {
		m := demoModel(t, "B", x.changes...)
		s, err := m.ParseState(x.state)
		if err != nil {
			t.Fatal(err)
		}
		tr, err := m.Explain(x.path, s)
		if err != nil {
			t.Errorf("%s: %v", x.name, err)
			continue
		}
		i := slices.IndexFunc(tr.Inputs, func(in rig.TraceInput) bool { return in.Path == x.input })
		if i < 0 {
			t.Errorf("%s: %s is no input of\n%s", x.name, x.input, tr.Text(units.US))
			continue
		}
		in := tr.Inputs[i]
		if in.Factor != x.factor || in.Value.Given() != (x.say == "") {
			t.Errorf("%s: factor %g, want %g, of %v", x.name, in.Factor, x.factor, in.Value)
		}
		change := rig.Set(x.input, x.say)
		if x.say == "" {
			factor := x.factor
			if factor == 0 {
				factor = 0.99
			}
			q, err := units.NewQuantity(in.Value.Kind(), in.Value.SI()*factor)
			if err != nil {
				t.Fatal(err)
			}
			change = rig.Assign(x.input, q)
		}
		n, err := m.With(change)
		if err != nil {
			t.Fatal(err)
		}
		after, ok := assessed(t, n).At(x.path, s)
		if d := after.Value.SI() - tr.Reading.Value.SI(); !ok || d == 0 || x.say == "" && math.Abs(d-in.Shift) > 1e-9*math.Abs(d) {
			t.Errorf("%s: %s goes from %v to %v, the trace says by %g", x.name, x.path, tr.Reading.Value, after.Value, in.Shift)
		}
	}
}
