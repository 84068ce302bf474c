package rig_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// What is refused names the field, the value and what would do, and nothing that is
// not so. The texts are examples: they may be reworded, and then stand here anew.
func TestErrors_sayWhatWouldDo(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B")
	with := func(c ...rig.Change) func() error {
		return func() error { _, err := m.With(c...); return err }
	}
	explain := func(p rig.Path, state string) func() error {
		return func() error {
			s, err := m.ParseState(state)
			if err != nil {
				return err
			}
			_, err = m.Explain(p, s)
			return err
		}
	}
	lever := func(p rig.Path, to ...units.Quantity) func() error {
		return func() error {
			l, err := m.Lever(p)
			if err != nil || len(to) == 0 {
				return err
			}
			_, err = l.To(to[0])
			return err
		}
	}
	policy := func(text string) func() error {
		return func() error {
			p, err := rig.ReadPolicy(strings.NewReader(`{"format":"washrig-policy/1",` + text + `}`))
			if err != nil {
				return err
			}
			return p.Validate()
		}
	}
	const signed = `"who":"a","when":"b","why":"c"`
	pressure := (5 * units.Bar).Quantity()
	for _, x := range []struct {
		name string
		do   func() error
		want string
	}{
		// Which states there are, and what the one given lacks.
		{"half a state", explain("engines[washer].demand", "guns=left"),
			"state = guns=left: engines[washer].demand has no number where heat, site, plugs are left out (want guns=left heat=off site=afternoon plugs=as-listed; guns=left heat=off site=morning plugs=as-listed; guns=left heat=steady site=afternoon plugs=as-listed; guns=left heat=steady site=morning plugs=as-listed)"},
		{"no state", explain("trailer.tongue", "any"),
			"state = any: trailer.tongue has no number where fill is left out (want fill=out; fill=home; fill=refilled; fill=home-dumped; and 16 more)"},
		{"not in that state", explain("lines[left].nozzle_pressure", "guns=right heat=steady"),
			"state = guns=right heat=steady: lines[left].nozzle_pressure has no number with guns=right (want guns=left heat=steady; guns=left+right heat=steady)"},
		{"no such value of an axis", explain("trailer.tongue", "fill=half"), "state.fill = half: no such value of the axis (want one of out, home, refilled, home-dumped, corner:dry, corner:fresh, corner:recovered, corner:fresh+recovered, corner:gasoline, corner:fresh+gasoline, corner:gasoline+recovered, corner:fresh+gasoline+recovered and 8 more)"},
		// No such number: what was meant.
		{"mistyped number", explain("engines[washer].demnd", "any"),
			"engines[washer].demnd: no such number (want engines[washer].demand, engines[washer].start_demand, engines[washer].fault_demand)"},
		{"no such component", explain("recovery[unit].drum_vacuum", "any"),
			"recovery[unit].drum_vacuum: no such number: it has no component of that id (want recovery[plant].drum_vacuum)"},
		{"no component", explain("lines[].flow", "any"),
			"lines[].flow: covers several numbers, and one is explained at a time (want lines[left].flow, lines[right].flow)"},
		{"half a path", explain("tongue", "any"),
			"tongue: no such number (want trailer.tongue)"},
		{"a field", explain("engines[washer].gross_power", "any"),
			"engines[washer].gross_power: a field of the specification, not a number computed from it (want the path of a number, such as engines[washer].available, engines[washer].available_briefly)"},

		// Removing and what refers to it.
		{"a field removed", with(rig.Remove("site.elevation")),
			`site.elevation: names a single field (want an element of a list or a group; an empty text clears a single field: Set("site.elevation", ""))`},
		{"a list removed", with(rig.Remove("lines")),
			"lines: names a list, and its elements are removed one by one (want an element of it, such as lines[left])"},
		{"an id removed", with(rig.Remove("lines[left].id")),
			"lines[left].id: an element is not without an id (want the whole element, lines[left])"},
		{"nothing to remove", with(rig.Remove("lines[lft]")),
			"lines[lft]: unknown name (want one of the ids left, right)"},
		{"a mistyped field removed", with(rig.Remove("site.elevaton")),
			"site.elevaton: unknown name (want elevation)"},
		{"a heater that others name", with(rig.Remove("heaters[heater]")),
			"loads[burner].heater = heater: heaters[heater] was removed (want loads[burner] removed too, or loads[burner].heater left out)\n" +
				"zones[stack].owner = heaters[heater]: heaters[heater] was removed (want zones[stack] removed too, or zones[stack].owner set to another component, or left out)"},
		{"a line that modes name", with(rig.Remove("lines[left]")),
			"modes[two-guns].guns = left: lines[left] was removed (want modes[two-guns].guns set to right, or modes[two-guns] removed too)\n" +
				"modes[one-gun].guns = left: lines[left] was removed (want modes[one-gun] removed too, or modes[one-gun].guns left out)"},
		{"a tank that everything names", with(rig.Remove("tanks[recovered]")),
			"crossovers[joint].to = recovered: tanks[recovered] was removed (want crossovers[joint] removed too)\n" +
				"recovery[plant].tank = recovered: tanks[recovered] was removed (want recovery[plant] removed too, or recovery[plant].tank left out)\n" +
				"hose_ends[return].at = recovered: tanks[recovered] was removed (want hose_ends[return] removed too, or hose_ends[return].at left out)\n" +
				"fills[home].levels[recovered]: tanks[recovered] was removed (want fills[home].levels[recovered] removed too)\n" +
				"fills[refilled].levels[recovered]: tanks[recovered] was removed (want fills[refilled].levels[recovered] removed too)\n" +
				"tie_downs[recovered-bands].holds[#1] = tanks[recovered]: tanks[recovered] was removed (want tie_downs[recovered-bands] removed too)"},
		{"an outlet beside outlets of another source", with(rig.Remove("outlets[left]")),
			"loads[vacuum-1].outlet = left: outlets[left] was removed (want loads[vacuum-1] removed too, or loads[vacuum-1].outlet set to right, or left out)"},
		{"the only tank of diesel", with(rig.Remove("fuel_tanks[diesel]"), rig.Remove("fills[out]"), rig.Remove("fills[home]"), rig.Remove("fills[refilled]"), rig.Remove("fills[home-dumped]")),
			"heaters[heater].fuel_tank = diesel: fuel_tanks[diesel] was removed (want heaters[heater] removed too, or heaters[heater].fuel_tank left out)\n" +
				"tie_downs[skid-bolts].holds[#3] = fuel_tanks[diesel]: fuel_tanks[diesel] was removed (want tie_downs[skid-bolts].holds set to items[skid] fuel_tanks[gasoline], or tie_downs[skid-bolts] removed too)"},
		{"the only tank of fresh water", with(rig.Remove("tanks[fresh]"), rig.Remove("fills[out]"), rig.Remove("fills[refilled]")),
			"pumps[main].tank = fresh: tanks[fresh] was removed (want pumps[main] removed too)\n" +
				"crossovers[joint].from = fresh: tanks[fresh] was removed (want crossovers[joint] removed too)\n" +
				"supplies[depot].tank = fresh: tanks[fresh] was removed (want supplies[depot] removed too)\n" +
				"hose_ends[cart].at = fresh: tanks[fresh] was removed (want hose_ends[cart] removed too, or hose_ends[cart].at left out)\n" +
				"tie_downs[fresh-bands].holds[#1] = tanks[fresh]: tanks[fresh] was removed (want tie_downs[fresh-bands] removed too)"},

		// Names that were never there.
		{"a tank mistyped", with(rig.Set("pumps[main].tank", "frsh")), "pumps[main].tank = frsh: unknown name (want one of the tanks: fresh, recovered)"},
		{"a hose end's tank mistyped", with(rig.Set("hose_ends[return].at", "recoverd")), "hose_ends[return].at = recoverd: unknown name (want one of the tanks: fresh, recovered, or nothing)"},

		// Other changes.
		{"a group set", with(rig.Set("site", "x")), "site: names a group of fields, not one value (want a field of it, such as site.elevation)"},
		{"an element set", with(rig.Set("lines[left]", "x")), "lines[left]: names an element of a list, not one value (want a field of it, such as lines[left].pump)"},
		{"an id set", with(rig.Set("lines[left].id", "x")), `lines[left].id = "x": an id is not set (want a copy under the new id, and the old element removed)`},
		{"an entry of a table set", with(rig.Set("tolerance.site.elevation", "1 ft")), "tolerance.site.elevation: an entry of the table tolerance has no path of its own (want the entry changed in the specification itself)"},
		{"an id that is taken", with(rig.Copy("lines[left]", "right")), "lines[left] = right: this id is taken (want an id no other element of this list has)"},
		{"a field copied", with(rig.Copy("site.elevation", "x")), "site.elevation: names no element of a list (want a path that ends in an id, such as lines[left])"},
		{"added to an element", with(rig.Add("lines[left]", "x", "")), "lines[left]: names an element, not a list (want the list alone, lines)"},
		{"another kind assigned", with(rig.Assign("site.elevation", pressure)), "site.elevation = 5 bar: 5 bar is a pressure (want an elevation such as 5280 ft)"},
		{"a word assigned", with(rig.Assign("site.place", pressure)), "site.place = open: the field holds a word, not a quantity (want a field that holds a quantity; this one is changed by Set)"},

		// Levers.
		{"a lever on a word", lever("site.place"), "site.place = open: the field holds a word, not a quantity (want a field that holds a quantity; this one is changed by Set)"},
		{"a lever on a count", lever("pumps[main].plungers"), "pumps[main].plungers = 3: the field holds a whole number, not a quantity (want a field that holds a quantity; this one is changed by Set)"},
		{"a lever on a list of words", lever("modes[one-gun].guns"), "modes[one-gun].guns: the field holds a list of words, not a quantity (want a field that holds a quantity; this one is changed by Set)"},
		{"a lever on money", lever("pumps[main].cost"), "pumps[main].cost = 890.00 USD: the field holds no quantity (want a field that holds a quantity; this one is changed by Set)"},
		{"a lever on a group", lever("site"), "site: names a group of fields, not one value (want a field of it, such as site.elevation)"},
		{"a lever on a number", lever("engines[washer].demand"), "engines[washer].demand: is computed, and a lever moves what is given (want one of its inputs, such as pumps[main].efficiency)"},
		{"a lever on a number of a group", lever("trailer.tongue_share"), "trailer.tongue_share: is computed, and a lever moves what is given (want one of its inputs, such as trailer.mass)"},
		{"a lever on a number of words", lever("heaters[heater].flow_guards"), "heaters[heater].flow_guards: is computed, and a lever moves what is given (want a field of the specification; it is computed as flow switch + pressure switch)"},
		{"a number set", with(rig.Set("lines[left].nozzle_pressure", "2000 psi")), "lines[left].nozzle_pressure: is computed, and only what is given can be set (want one of its inputs, such as lines[left].fittings.loss)"},
		{"a number assigned", with(rig.Assign("trailer.tongue", pressure)), "trailer.tongue: is computed, and only what is given can be set (want one of its inputs, such as trailer.x)"},
		{"a lever on nothing", lever("site.nearest_opening"), `site.nearest_opening: holds nothing that could be moved (want With(Set("site.nearest_opening", "50 ft")) first)`},
		{"another kind", lever("site.elevation", pressure), "site.elevation = 5 bar: 5 bar is a pressure (want an elevation such as 5280 ft)"},
		{"a length for an elevation", lever("site.elevation", (5 * units.Meter).Quantity()), "site.elevation = 5 m: 5 m is a length (want an elevation such as 5280 ft)"},
		{"no quantity", lever("site.elevation", units.Quantity{}), "site.elevation: required value not given (want an elevation such as 5280 ft)"},

		{"a lever on nothing of a narrow range", func() error {
			n, err := m.With(rig.Set("supplies[depot].residual", ""), rig.Set("supplies[depot].test_flow", ""))
			if err != nil {
				return err
			}
			_, err = n.Lever("supplies[depot].residual")
			return err
		}, `supplies[depot].residual: holds nothing that could be moved (want With(Set("supplies[depot].residual", "300 psi")) first)`},
		{"a pressure that is needed", with(rig.Set("supplies[depot].static", "")), "supplies[depot].static: required value not given (want pressure at the connection with nothing flowing, from 0.5 psi to 300 psi)"},
		{"a current for a pressure", with(rig.Set("supplies[depot].static", "12 A")), "supplies[depot].static = 12 A: A is a current (want a pressure from 0.5 psi to 300 psi)"},

		// Parts: the one true cause.
		{"an unknown part", with(rig.Set("engines[washer].part", "E17")), `engines[washer].part = "E17": no such part on the shelf (want the number of an engine on the shelf: E13, E16, E23)`},
		{"a part of another class", with(rig.Set("engines[washer].part", "P68")), `engines[washer].part = "P68": P68 is the number of a pump (want the number of an engine on the shelf: E13, E16, E23)`},
		{"an unknown tank", with(rig.Set("tanks[fresh].part", "WT1600")), `tanks[fresh].part = "WT1600": no such part on the shelf (want the number of a tank on the shelf: WT160, WT240)`},
		{"an unknown part of a new line", with(rig.Add("lines", "new", "HS99")), `lines[new].part = "HS99": no such part on the shelf (want a number on the shelf)`},
		{"a load without power", with(rig.Add("loads", "lamp", "")), "loads[lamp].running: required value not given (want power while it runs, from 1 W to 100000 W)\nloads[lamp].source: required value not given (want the source it is plugged into)"},

		// A number without its unit, or of another kind.
		{"watts without a unit", with(rig.Set("loads[vacuum-1].running", "1500")), "loads[vacuum-1].running = 1500: a number without a unit (want 1500 W)"},
		{"air without a unit", with(rig.Set("recovery[plant].motor.open_flow", "100")), "recovery[plant].motor.open_flow = 100: a number without a unit (want 100 cfm)"},
		{"a vacuum without a unit", with(rig.Set("recovery[plant].motor.sealed_lift", "100")), "recovery[plant].motor.sealed_lift = 100: a number without a unit (want 100 inH2O)"},
		{"a bore without a unit", with(rig.Set("heaters[heater].coil_bore", "0.5")), "heaters[heater].coil_bore = 0.5: a number without a unit (want 0.5 in)"},
		{"a power of another kind", with(rig.Set("loads[vacuum-1].running", "12 A")), "loads[vacuum-1].running = 12 A: A is a current (want a power from 1 W to 100000 W)"},

		// Of values that go together, the one that is missing is named.
		{"a coil without its helix", with(rig.Set("heaters[heater].part", ""), rig.Set("heaters[heater].coil_bore", "0.5 in"), rig.Set("heaters[heater].coil_length", "100 ft"), rig.Set("heaters[heater].helix_diameter", "")),
			"heaters[heater].helix_diameter: required value not given (want coil_bore, coil_length and helix_diameter together, or none of them)"},
		{"a residual without its flow", with(rig.Set("supplies[depot].residual", "30 psi"), rig.Set("supplies[depot].test_flow", "")),
			"supplies[depot].test_flow: required value not given (want the flow at which the residual pressure was read, or no residual)"},
		{"a flow without its residual", with(rig.Set("supplies[depot].residual", ""), rig.Set("supplies[depot].test_flow", "5 gpm")),
			"supplies[depot].residual: required value not given (want the pressure that was read at test_flow, or no test_flow)"},

		// Policies.
		{"another file", func() error { _, err := rig.ReadPolicy(strings.NewReader(`{"format":"washrig/1"}`)); return err }, "format = washrig/1: another kind of file (want washrig-policy/1)"},
		{"a newer file", func() error {
			_, err := rig.ReadPolicy(strings.NewReader(`{"format":"washrig-policy/2"}`))
			return err
		}, "format = washrig-policy/2: a format this library does not read (want washrig-policy/1; the file has format 2 and this library reads format 1)"},
		{"a mistyped code", policy(`"limits":[{"id":"tonge-share-low","fix":"8 %",` + signed + `}]`), "limits[tonge-share-low]: no check has this code (want a code such as tongue-share-low)"},
		{"a threshold it has not", policy(`"limits":[{"id":"bypass-heating","note":"8 min",` + signed + `}]`), "limits[bypass-heating].note = 8 min: the code has no such threshold (want stop (now 5 min))"},
		{"no threshold", policy(`"limits":[{"id":"bypass-heating",` + signed + `}]`), "policy.limits[bypass-heating]: changes no threshold (want stop (now 5 min))"},
		{"a plate", policy(`"limits":[{"id":"trailer-over-rating","stop":"1 lb",` + signed + `}]`), "limits[trailer-over-rating]: the limit is a plate, which no policy changes (want another code, or the rating in the specification)"},
		{"a stop off", policy(`"off":["engine-overload"]`), "policy.off = engine-overload: can stop a rig, and a stop is never switched off (want a code that weighs note or fix at most)"},
		{"no such code off", policy(`"off":["bypas-heating"]`), "policy.off = bypas-heating: no check has this code (want a code such as bypass-heating, bypass-heating-warm)"},
		{"a mistyped default", policy(`"defaults":[{"path":"pumps[].belt_eff","value":"94 %",` + signed + `}]`), "policy.defaults[pumps[].belt_eff]: no field of this name has a default (want a field such as pumps[].belt_efficiency)"},
		{"a default of one pump", policy(`"defaults":[{"path":"pumps[main].belt_efficiency","value":"94 %",` + signed + `}]`), "policy.defaults[pumps[main].belt_efficiency]: a default holds for every component (want pumps[].belt_efficiency)"},
		{"no default there", policy(`"defaults":[{"path":"pumps[].rated_flow","value":"4 gpm",` + signed + `}]`), "policy.defaults[pumps[].rated_flow]: the field has no default (want a field that has one, such as pumps[].efficiency)"},
		{"twice", policy(`"off":[],"off":[]`), "line 1, column 39: off: given twice (want the name once)"},
	} {
		err := x.do()
		if err == nil {
			t.Errorf("%s: taken", x.name)
			continue
		}
		if err.Error() != x.want {
			t.Errorf("%s:\n%v\nwant\n%s", x.name, err, x.want)
		}
		for _, misleads := range []string{"values contradict each other", "want a elevation"} {
			if strings.Contains(err.Error(), misleads) {
				t.Errorf("%s: %v", x.name, err)
			}
		}
	}
}

// Values that contradict each other are printed in one unit, the one they are written in.
func TestErrors_inOneUnit(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B")
	with := func(c ...rig.Change) []rig.Change { return c }
	for _, x := range []struct {
		name    string
		changes []rig.Change
		want    string
	}{
		{"a residual above the static pressure", with(rig.Set("supplies[depot].residual", "90 psi"), rig.Set("supplies[depot].static", "60 psi"), rig.Set("supplies[depot].test_flow", "5 gpm")),
			"supplies[depot].residual = 90 psi: values contradict each other (want less than the static pressure, 60 psi)"},
		{"more than a tank holds", with(rig.Set("tanks[fresh].usable", "250 gal")),
			"tanks[fresh].usable = 250 gal: values contradict each other (want at most the nominal volume, 240 gal)"},
		{"more than a tank holds, in litres", with(rig.Set("tanks[fresh].nominal", "950 L"), rig.Set("tanks[fresh].usable", "970 L")),
			"tanks[fresh].usable = 970 L: values contradict each other (want at most the nominal volume, 950 L)"},
		{"by a hair", with(rig.Set("tanks[fresh].usable", "240.00000001 gal")),
			"tanks[fresh].usable = 240.00000001 gal: values contradict each other (want at most the nominal volume, 240 gal)"},
	} {
		if _, err := m.With(x.changes...); err == nil || err.Error() != x.want {
			t.Errorf("%s:\n%v\nwant\n%s", x.name, err, x.want)
		}
	}
}

// What is told apart by its words is told apart by errors.Is and errors.As too, and a
// change that takes along what refers to the part is taken.
func TestErrors_kinds(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B")
	_, err := m.With(rig.Remove("heaters[heater]"))
	var f *units.FieldError
	if !errors.As(err, &f) || f.Path != "loads[burner].heater" || f.Value != "heater" {
		t.Errorf("%+v", f)
	}
	if _, err := m.With(rig.Remove("heaters[heater]"), rig.Set("loads[burner].heater", ""), rig.Set("zones[stack].owner", "")); err != nil {
		t.Errorf("with what the error asks for: %v", err)
	}
	if _, err := m.With(rig.Remove("lines[left]"), rig.Set("modes[two-guns].guns", "right"), rig.Remove("modes[one-gun]")); err != nil {
		t.Errorf("a line whose length has a tolerance: %v", err)
	}
	any, _ := m.ParseState("any")
	if _, err := m.Explain("trailer.tongue", any); !errors.Is(err, units.ErrRange) || !errors.As(err, &f) || f.Path != "state" {
		t.Errorf("no such state: %v", err)
	}
	if _, err := m.Explain("trailer.tonge", any); errors.Is(err, units.ErrRange) || !errors.As(err, &f) || f.Path != "trailer.tonge" {
		t.Errorf("no such number: %v", err)
	}
	if _, err := m.Lever("site.nearest_opening"); !errors.Is(err, units.ErrMissing) {
		t.Errorf("a lever on nothing: %v", err)
	}
	if l, err := m.Lever("site.elevation"); err != nil {
		t.Error(err)
	} else if _, err := l.To((3 * units.PSI).Quantity()); !errors.Is(err, units.ErrConflict) {
		t.Errorf("another kind: %v", err)
	}
}
