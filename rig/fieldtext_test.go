package rig_test

import (
	"encoding/json"
	"strings"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// What a field holds prints in the unit it is sold by (common practice), in either
// system, in explanations too. Factors: NIST SP 811, Appendix B.8: 1 hp (550 ft·lbf/s) is
// 745.6999 W, 1 ft³/min 4.719474e-4 m³/s, 1 gal/min 6.309020e-5 m³/s, 1 inH2O
// (conventional) 249.0889 Pa, 1 psi 6894.757 Pa.
func TestFieldText(t *testing.T) {
	t.Parallel()
	for _, x := range []struct {
		path   rig.Path
		value  string
		kind   units.Kind
		us, si string
	}{
		{"engines[].gross_power", "23 hp", units.KindPower, "23 hp", "17.15 kW"},
		{"loads[].running", "1440 W", units.KindPower, "1440 W", "1440 W"},
		{"recovery[].motor.sealed_power", "1100 W", units.KindPower, "1100 W", "1100 W"},
		{"recovery[].motor.open_flow", "100 cfm", units.KindVolumeFlow, "100 cfm", "169.9 m³/h"},
		{"pumps[].rated_flow", "6.8 gpm", units.KindVolumeFlow, "6.8 gpm", "25.74 L/min"},
		{"recovery[].motor.sealed_lift", "100 inH2O", units.KindPressure, "100 inH2O", "24.91 kPa"},
		{"recovery[].air_filter.clean", "1 inH2O", units.KindPressure, "1 inH2O", "0.2491 kPa"},
		{"pumps[].maximum_pressure", "3500 psi", units.KindPressure, "3500 psi", "241.3 bar"},
		{"trailer.axle_group", "12.6 ft", units.KindPosition, "12.6 ft", "3.84 m"},
	} {
		q, err := units.ParseQuantity(x.kind, x.value)
		if err != nil {
			t.Fatal(err)
		}
		if us, si := rig.FieldText(x.path, q, units.US, 4), rig.FieldText(x.path, q, units.SI, 4); us != x.us || si != x.si {
			t.Errorf("%s = %s prints as %s and %s, want %s and %s", x.path, x.value, us, si, x.us, x.si)
		}
	}
	m := demoModel(t, "B")
	s, err := m.ParseState("site=afternoon plugs=as-listed")
	if err != nil {
		t.Fatal(err)
	}
	tr, err := m.Explain("sources[portable].running", s)
	if err != nil {
		t.Fatal(err)
	}
	if text := tr.Text(units.US); !strings.Contains(text, "loads[vacuum-1].running = ") || strings.Contains(text, " hp (") {
		t.Errorf("the running load of a generator is explained in\n%s", text)
	}
}

// Data hold an input in the unit it is sold by as well: what is assumed, and the value at
// which a verdict turns, whatever the metric that is judged is written in.
func TestReport_inputsAsData(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B", rig.Set("loads[dump-pump].part", ""), rig.Set("loads[dump-pump].class", "brush-motor"), rig.Set("loads[dump-pump].running", "750 W"))
	b, err := assessed(t, m).MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	type quantity struct{ Kind, Unit string }
	var out struct {
		Assumed []struct {
			Path  rig.Path
			Value quantity
		}
		Passed []struct {
			Code  rig.Code
			Leans []rig.Path `json:"leans"`
			Turns quantity   `json:"turns"`
		}
	}
	if err := json.Unmarshal(b, &out); err != nil {
		t.Fatal(err)
	}
	assumed, turns := 0, 0
	for _, a := range out.Assumed {
		if strings.HasPrefix(string(a.Path), "loads[") && a.Value.Kind == "power" {
			if assumed++; a.Value.Unit != "W" {
				t.Errorf("%s is written in %s", a.Path, a.Value.Unit)
			}
		}
	}
	for _, f := range out.Passed {
		if len(f.Leans) > 0 && f.Leans[0] == "loads[dump-pump].starting" && f.Turns.Kind != "" {
			if turns++; f.Turns.Unit != "W" {
				t.Errorf("%s turns at a value in %s", f.Code, f.Turns.Unit)
			}
		}
	}
	if assumed == 0 || turns == 0 {
		t.Errorf("%d powers assumed, %d turns", assumed, turns)
	}
}
