package rig_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/jsonschema"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// An explanation as data says what the explanation as text says, with the units of the
// trade, all the way down.
func TestTrace_asData(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B")
	for _, x := range []struct {
		path  rig.Path
		state string
	}{
		{"lines[left].nozzle_pressure", "guns=left+right heat=steady"},
		{"heaters[heater].outlet_temperature", "guns=left heat=steady"},
		{"trailer.centre_aft", "fill=out"},
		{"pumps[main].relief_flow", "guns=none heat=off"},
	} {
		s, err := m.ParseState(x.state)
		if err != nil {
			t.Fatal(err)
		}
		tr, err := m.Explain(x.path, s)
		if err != nil {
			t.Fatal(err)
		}
		b, err := json.Marshal(tr)
		if err != nil {
			t.Fatal(err)
		}
		if err := jsonschema.Check([]byte(rig.TraceSchema()), b); err != nil {
			t.Errorf("%s: %v", x.path, err)
		}
		var doc struct {
			Format string
			Number tracedNumber
		}
		if err := json.Unmarshal(b, &doc); err != nil || doc.Format != rig.TraceFormat {
			t.Fatalf("%v, format %q", err, doc.Format)
		}
		sameTrace(t, &doc.Number, tr)
	}
}

type tracedNumber struct {
	Path   rig.Path
	State  string
	Value  units.Quantity
	Inputs []struct {
		Path   rig.Path
		Value  units.Quantity
		Word   string
		Basis  rig.Basis
		Gain   float64
		Shift  units.Quantity
		Factor float64
	}
	Uses []tracedNumber
}

// sameTrace holds data that were read back against the trace they were made from. Nine
// digits are written.
func sameTrace(t *testing.T, n *tracedNumber, tr *rig.Trace) {
	t.Helper()
	near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-8*math.Max(math.Abs(a), math.Abs(b)) }
	if n.Path != tr.Reading.Path() || n.State != tr.Reading.State.String() || !near(n.Value.SI(), tr.Reading.Value.SI()) || len(n.Inputs) != len(tr.Inputs) || len(n.Uses) != len(tr.Uses) {
		t.Errorf("%s = %v in %s with %d inputs and %d uses, for %v", n.Path, n.Value, n.State, len(n.Inputs), len(n.Uses), tr.Reading)
		return
	}
	for i, in := range tr.Inputs {
		x := n.Inputs[i]
		basis := in.Basis
		if basis == "" {
			basis = "stated"
		}
		if x.Path != in.Path || x.Word != in.Word || x.Basis != basis || !near(x.Value.SI(), in.Value.SI()) || !near(x.Gain, in.Gain) || !near(x.Shift.SI(), in.Shift) || x.Factor != in.Factor {
			t.Errorf("%s: input %+v for %+v", n.Path, x, in)
		}
	}
	for i := range tr.Uses {
		sameTrace(t, &n.Uses[i], tr.Uses[i])
	}
}

// A difference as data says both sides of what is not the same.
func TestDiff_asData(t *testing.T) {
	t.Parallel()
	check := func(a, b *rig.Report) error {
		out, err := json.Marshal(rig.Diff(a, b))
		if err != nil {
			return err
		}
		return jsonschema.Check([]byte(rig.DifferenceSchema()), out)
	}
	before, after := assessed(t, demoModel(t, "B")), assessed(t, demoModel(t, "B", rig.Set("pumps[main].unloader.return_to", "inlet"), rig.Set("pumps[main].unloader.loop_volume", "0.5 gal")))
	if err := check(before, after); err != nil {
		t.Error(err)
	}
	b, err := json.Marshal(rig.Diff(before, after))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"format":"washrig-difference/1"`, `"verdict":"fix"`, `"verdict":"stop"`, `"code":"bypass-heating"`} {
		if !strings.Contains(string(b), want) {
			t.Errorf("no %s in %.2000s", want, b)
		}
	}
	for _, x := range demo.Names() {
		if err := check(before, assessed(t, demoModel(t, x))); err != nil {
			t.Errorf("B and %s: %v", x, err)
		}
	}
	property.Check(t, func(g *property.G) error {
		_, _, a, err := wholeRig(g)
		if err != nil {
			return err
		}
		_, _, b, err := wholeRig(g)
		if err != nil {
			return err
		}
		return check(a, b)
	})
}
