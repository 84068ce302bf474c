package vacuum_test

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/units"
)

func must[T any](v T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func cfm(v float64) units.VolumeFlow    { return units.VolumeFlow(v) * units.CubicFootPerMinute }
func gpm(v float64) units.VolumeFlow    { return units.VolumeFlow(v) * units.GallonPerMinute }
func inches(v float64) units.Length     { return units.Length(v) * units.Inch }
func feet(v float64) units.Length       { return units.Length(v) * units.Foot }
func inH2O(v float64) units.Pressure    { return units.Pressure(v) * units.InchOfWater }
func psi(v float64) units.Pressure      { return units.Pressure(v) * units.PSI }
func gallons(v float64) units.Volume    { return units.Volume(v) * units.Gallon }
func fpm(v float64) units.Velocity      { return units.Velocity(v) * units.FootPerMinute }
func inGPM(q units.VolumeFlow) float64  { return q.In(units.GallonPerMinute) }
func inCFM(q units.VolumeFlow) float64  { return q.In(units.CubicFootPerMinute) }
func inInches(p units.Pressure) float64 { return p.In(units.InchOfWater) }

// mile is the air at 5,200 ft on a hot afternoon.
var mile = vacuum.Air{Pressure: 83_540 * units.PascalAbsolute, Temperature: units.Fahrenheit(95)}

// coldWater is water at 60 °F.
func coldWater(t testing.TB) vacuum.Liquid {
	t.Helper()
	return must(vacuum.Water(units.Fahrenheit(60)))(t)
}

// motor is an invented vacuum motor: 110 in of water sealed, 120 cfm open.
func motor(t testing.TB) *vacuum.Blower {
	t.Helper()
	return must(vacuum.NewBlower(motorPlate()))(t)
}

func motorPlate() vacuum.BlowerPlate {
	return vacuum.BlowerPlate{
		Points:  []vacuum.BlowerPoint{{Flow: 0, Lift: inH2O(110)}, {Flow: cfm(120), Lift: 0}},
		Between: vacuum.Straight,
		Air:     vacuum.StandardAir(),
		Type:    vacuum.Centrifugal, OpenPower: 1100 * units.Watt, SealedPower: 700 * units.Watt,
	}
}

// tool is an invented floor tool: 8 in of water at 100 cfm.
func tool() vacuum.RatedLoss {
	return vacuum.RatedLoss{Flow: cfm(100), Loss: inH2O(8), Air: vacuum.StandardAir()}
}

// plant is an invented recovery unit: one 2 in hose of 40 ft that climbs 3 ft.
func plant(t testing.TB, motors int) vacuum.Plant {
	t.Helper()
	return vacuum.Plant{
		Air: vacuum.StandardAir(), Liquid: coldWater(t), Motors: vacuum.Parallel(motor(t), motors), Hoses: 1,
		Path: []vacuum.Element{tool(), vacuum.Hose{Bore: inches(2), Length: feet(40), Rise: feet(3)}},
		Duct: []vacuum.Element{vacuum.RatedLoss{Flow: cfm(200), Loss: inH2O(4), Linear: 0.5, Air: vacuum.StandardAir()}},
	}
}

// pump is an invented dump pump: 20 ft shut off, 14 gpm with nothing against it.
func pump(t testing.TB) *vacuum.DumpPump {
	t.Helper()
	return must(vacuum.NewDumpPump([]vacuum.DumpPoint{{Flow: 0, Head: feet(20)}, {Flow: gpm(14), Head: 0}}, vacuum.Parabola))(t)
}

// train is an invented bag of 50 µm before a cartridge of 10 µm.
func train(t testing.TB) vacuum.Train {
	t.Helper()
	w := coldWater(t)
	return vacuum.Train{
		{Name: "bag", Flow: gpm(10), Clean: psi(0.5), Dirty: psi(3), Linear: 0.3, Liquid: w, Capacity: 5 * units.Pound, Captures: 0.8},
		{Name: "cartridge", Flow: gpm(10), Clean: psi(1), Dirty: psi(4), Linear: 0.8, Liquid: w, Capacity: 1 * units.Pound, Captures: 0.7},
	}
}

// dump is the invented discharge: 3 ft up through 15 ft of 1 in hose, with a check valve.
func dump(t testing.TB) vacuum.Dump {
	t.Helper()
	return vacuum.Dump{Pump: pump(t), Running: 1, Liquid: coldWater(t), Rise: feet(3), Bore: inches(1), Length: feet(15), K: 4,
		Filters: train(t), CheckValve: true, Cracking: psi(0.2)}
}

// table reads a CSV under testdata: a line of source, a line of names, rows.
func table(t testing.TB, name string) []map[string]string {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	first, rest, _ := strings.Cut(string(text), "\n")
	if !strings.HasPrefix(first, "# source: ") {
		t.Fatalf("%s does not begin with its source", name)
	}
	rows, err := csv.NewReader(strings.NewReader(rest)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, r := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			m[h] = r[i]
		}
		out = append(out, m)
	}
	if len(out) < 10 {
		t.Fatalf("%s has %d rows", name, len(out))
	}
	return out
}

func num(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// refused fails unless err is about the field, and of the kind.
func refused(t *testing.T, err error, path string, kind error) {
	t.Helper()
	var f *units.FieldError
	for _, e := range flat(err) {
		if errors.As(e, &f) && f.Path == path && errors.Is(f, kind) {
			if f.Want == "" {
				t.Errorf("%v does not say what would do", f)
			}
			return
		}
	}
	t.Errorf("got %v, want %v about %s", err, kind, path)
}

func flat(err error) []error {
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		var out []error
		for _, e := range j.Unwrap() {
			out = append(out, flat(e)...)
		}
		return out
	}
	return []error{err}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within*math.Abs(want)) {
		t.Errorf("%s: %.12g, want %.12g within %.1g", what, got, want, within)
	}
}
