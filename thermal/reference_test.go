package thermal

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/units"
)

// A row is a line of a table of reference solutions.
type row map[string]string

// num returns a cell as a number.
func (r row) num(t testing.TB, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("%s: column %s: %v", r["case"], column, err)
	}
	return x
}

// table reads a CSV file whose first line names its source.
func table(t testing.TB, name string) []row {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	source, text, _ := strings.Cut(string(b), "\n")
	if !strings.HasPrefix(source, "# source: ") {
		t.Fatalf("%s: first line is %q", name, source)
	}
	records, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil || len(records) < 2 {
		t.Fatalf("%s: %d lines, %v", name, len(records), err)
	}
	var rows []row
	for _, rec := range records[1:] {
		r := row{}
		for i, h := range records[0] {
			r[h] = rec[i]
		}
		rows = append(rows, r)
	}
	return rows
}

// near fails unless got is within rel of want, relative to size.
func near(t testing.TB, what string, got, want, size, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(size)) {
		t.Errorf("%s: %.12g, reference %.12g (off by %.2g of %.3g)", what, got, want, math.Abs(got-want)/math.Abs(size), size)
	}
}

// Transients are held to 1e-6 of the reference solution; the references themselves
// are integrated to 1e-11 or better, and the closed form here should be near that.
const transient = 1e-6

// The exact solution of the two heat stores against an integration by SciPy.
func TestHeater_reference(t *testing.T) {
	for _, r := range table(t, "heater_reference.csv") {
		n := func(c string) float64 { return r.num(t, c) }
		on := twoNode{
			Cs: n("Cs"), Cw: n("Cw"), q: n("q"), G: n("G"), Tg: n("Tg"), K: n("K"), L: n("L"), Ta: n("Ta"), W: n("W"), Ti: n("Ti"),
		}
		off := on
		off.q, off.G = 0, 0
		mOn, mOff := on.solve(), off.solve()

		start := pair{n("start"), n("start")}
		when, ok := mOn.reach(start, waterNode, n("target"))
		if !ok {
			t.Errorf("%s: target not reached", r["case"])
			continue
		}
		z := mOn.at(start, when)
		b := on.balance(&mOn, start, z, when)
		near(t, r["case"]+": time to target", when, n("t_target"), when, 1e-9)
		near(t, r["case"]+": metal at target", z.s, n("Ts_target"), n("Ts_target")-n("Ti"), 1e-9)
		near(t, r["case"]+": heat fired", float64(b.Fired), n("fired_target"), n("fired_target"), 1e-9)
		near(t, r["case"]+": heat delivered", float64(b.Delivered), n("delivered_target"), n("delivered_target"), 1e-9)

		w := swing{on: &mOn, off: &mOff, set: n("set"), call: n("call"), stop: n("stop"), start: n("fire")}
		k, cycles, ok := w.settle()
		if !ok {
			t.Errorf("%s: does not settle in %d cycles", r["case"], cycles)
			continue
		}
		swing := n("highest") - n("lowest")
		near(t, r["case"]+": time with fire", float64(k.Fire), n("fire_s"), n("fire_s"), transient)
		near(t, r["case"]+": pause", float64(k.Pause), n("pause_s"), n("pause_s"), transient)
		near(t, r["case"]+": highest", k.Highest.Kelvin(), n("highest"), swing, transient)
		near(t, r["case"]+": lowest", k.Lowest.Kelvin(), n("lowest"), swing, transient)
		near(t, r["case"]+": heat fired in a cycle", float64(k.Balance.Fired), n("fired_cycle"), n("fired_cycle"), transient)
		near(t, r["case"]+": heat delivered in a cycle", float64(k.Balance.Delivered), n("delivered_cycle"), n("delivered_cycle"), transient)
	}
}

func TestSoak_reference(t *testing.T) {
	for _, r := range table(t, "soak_reference.csv") {
		n := func(c string) float64 { return r.num(t, c) }
		s := ShutIn{
			Metal: 60, MetalHeat: units.SpecificHeat(n("Cs") / 60), MetalTemperature: units.Kelvin(n("Ts0")),
			Conductance: units.ThermalConductance(n("K")), Coil: units.Volume(n("coil")), CoilTemperature: units.Kelvin(n("Tw0")),
			Line: units.Volume(n("line")), Loss: units.ThermalConductance(n("L")), Surroundings: units.Kelvin(n("Ta")),
			Pressure: units.AbsolutePressure(n("p0")), Air: units.Volume(n("air")), Relief: units.AbsolutePressure(n("relief")),
			Stretch: units.Volume(n("stretch") * 1e7), StretchAt: 1e7,
		}
		if s.Line > 0 {
			s.LineTemperature = units.Kelvin(n("Tl"))
		}
		got, err := s.Soak()
		if err != nil {
			t.Errorf("%s: %v", r["case"], err)
			continue
		}
		rise := n("peak") - n("Tw0")
		near(t, r["case"]+": peak", got.Peak.Kelvin(), n("peak"), rise, transient)
		near(t, r["case"]+": time", float64(got.Time), n("time_to_thousandth"), n("time_to_thousandth"), transient)
		near(t, r["case"]+": pressure", float64(got.Highest), n("pressure"), n("pressure")-n("p0"), transient)
		near(t, r["case"]+": heat lost", float64(got.Lost), n("lost"), math.Max(n("lost"), 1), transient)
		near(t, r["case"]+": relief opens", float64(got.After), n("lift_time"), math.Max(n("lift_time"), 1e-3), transient)
		near(t, r["case"]+": vented", float64(got.Vented), n("vented"), math.Max(n("vented"), 1e-6), 2*transient)
		if got.Lifts != (n("vented") > 0) {
			t.Errorf("%s: lifts: %v", r["case"], got.Lifts)
		}
	}
}

func surroundingsOf(t testing.TB, r row) Surroundings {
	n := func(c string) float64 { return r.num(t, c) }
	s := Surroundings{
		Air: units.Kelvin(n("Ta")), Site: units.AbsolutePressure(n("site")), Wind: units.Velocity(n("wind")),
		Wet: units.Ratio(n("wet")), Humidity: units.Ratio(n("humidity")), Contact: units.Ratio(n("contact")),
		ContactCoefficient: units.HeatTransferCoefficient(n("hg")),
	}
	if x := n("Tr"); x > 0 {
		s.Radiant = units.Kelvin(x)
	}
	if x := n("Tg"); x > 0 {
		s.Ground = units.Kelvin(x)
	}
	return s
}

func TestHose_reference(t *testing.T) {
	for _, r := range table(t, "hose_reference.csv") {
		n := func(c string) float64 { return r.num(t, c) }
		h := Hose{
			Length: units.Length(n("length")), Bore: units.Length(n("bore")), Outside: units.Length(n("outside")),
			Conductivity: units.ThermalConductivity(n("k")), Emissivity: units.Ratio(n("eps")),
		}
		got, err := h.Deliver(units.MassFlow(n("flow")), units.Kelvin(n("T_in")), units.AbsolutePressure(n("line")), surroundingsOf(t, r))
		if err != nil {
			t.Errorf("%s: %v", r["case"], err)
			continue
		}
		near(t, r["case"]+": outlet", got.Out.Kelvin(), n("T_out"), n("T_in")-n("T_out"), transient)
		near(t, r["case"]+": loss", float64(got.Loss), n("loss_W"), n("loss_W"), transient)
	}
}

func TestFreeze_reference(t *testing.T) {
	for _, r := range table(t, "freeze_reference.csv") {
		n := func(c string) float64 { return r.num(t, c) }
		e := Exposed{
			Water: units.Volume(n("water")), Metal: 10, MetalHeat: units.SpecificHeat(n("metal") / 10), Area: units.Area(n("area")),
			Diameter: units.Length(n("D")), Bore: units.Length(n("bore")), Wall: units.HeatTransferCoefficient(n("wall")),
			Emissivity: units.Ratio(n("eps")),
		}
		got, err := e.Freeze(units.Kelvin(n("start")), surroundingsOf(t, r), units.Ratio(n("share")))
		if err != nil {
			t.Errorf("%s: %v", r["case"], err)
			continue
		}
		near(t, r["case"]+": heat at 0 °C", float64(got.Heat), n("heat"), n("heat"), transient)
		near(t, r["case"]+": to 0 °C", float64(got.ToFreezing), n("t_zero"), n("t_zero"), transient)
		near(t, r["case"]+": to the share", float64(got.ToShare), n("t_share"), n("t_share"), transient)
		near(t, r["case"]+": to solid", float64(got.ToSolid), n("t_solid"), n("t_solid"), transient)
	}
}
