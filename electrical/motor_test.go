package electrical_test

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// fraction reads "1-1/2" and "3/4".
func fraction(t *testing.T, s string) float64 {
	t.Helper()
	whole := 0.0
	if a, b, ok := strings.Cut(s, "-"); ok {
		whole, s = num(t, a), b
	}
	if a, b, ok := strings.Cut(s, "/"); ok {
		return whole + num(t, a)/num(t, b)
	}
	return num(t, s)
}

func TestFullLoadCurrent_table430(t *testing.T) {
	for _, r := range readTable(t, "nec_430_248_single_phase_flc.csv") {
		for _, v := range []string{"115", "200", "208", "230"} {
			i, err := electrical.FullLoadCurrent(units.Power(fraction(t, r["horsepower"]))*units.Horsepower, units.Voltage(num(t, v)))
			if err != nil || i.In(units.Ampere) != num(t, r["flc_"+v+"V_A"]) {
				t.Errorf("%s hp at %s V: %v, %v, table %s", r["horsepower"], v, i, err, r["flc_"+v+"V_A"])
			}
		}
	}
	if _, err := electrical.FullLoadCurrent(4*units.Horsepower, 230); !errors.Is(err, units.ErrRange) {
		t.Errorf("4 hp: %v", err)
	}
	if _, err := electrical.FullLoadCurrent(2*units.Horsepower, 120); !errors.Is(err, units.ErrRange) {
		t.Errorf("120 V: %v", err)
	}
}

func TestLockedRotorOf_table430(t *testing.T) {
	for _, r := range readTable(t, "nec_430_7b_code_letters.csv") {
		l, err := electrical.LockedRotorOf(r["code_letter"], units.Horsepower, 100, false)
		if r["kva_per_hp_max"] == "" {
			if !errors.Is(err, units.ErrRange) {
				t.Errorf("%s: %v", r["code_letter"], err)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range []struct {
			got     units.ApparentPower
			printed string
		}{{l.Low, r["kva_per_hp_min"]}, {l.High, r["kva_per_hp_max"]}} {
			if s := strconv.FormatFloat(x.got.In(units.KilovoltAmpere), 'g', 6, 64); num(t, s) != num(t, x.printed) {
				t.Errorf("%s: %s kVA/hp, table %s", r["code_letter"], s, x.printed)
			}
		}
		if float64(l.LowCurrent)*100 != float64(l.Low) {
			t.Errorf("%s: %v is not %v at 100 V", r["code_letter"], l.LowCurrent, l.Low)
		}
	}
}

// TestPlate_ways reads the same motor off plates that tell different things.
func TestPlate_ways(t *testing.T) {
	for _, c := range []struct {
		name  string
		plate electrical.Plate
		want  electrical.Load // watts and volt-amperes
		basis electrical.StartBasis
		most  bool
	}{
		{
			"volts, amperes and power factor",
			electrical.Plate{Voltage: 100, Current: 10, PowerFactor: 0.8, MeasuredStart: 30, StartPowerFactor: 0.6},
			electrical.Load{Running: 800, RunningApparent: 1000, Starting: 1800, StartingApparent: 3000}, electrical.StartMeasured, false,
		},
		{
			"shaft power and efficiency",
			electrical.Plate{Voltage: 100, Current: 10, ShaftPower: 600, Efficiency: 0.75, LockedRotor: 30},
			electrical.Load{Running: 800, RunningApparent: 1000, Starting: 3000, StartingApparent: 3000}, electrical.StartLockedRotor, true,
		},
		{
			"watts and power factor, no amperes",
			electrical.Plate{Voltage: 100, Input: 800, PowerFactor: 0.8, LockedRotor: 30, StartPower: 1500},
			electrical.Load{Running: 800, RunningApparent: 1000, Starting: 1500, StartingApparent: 3000}, electrical.StartLockedRotor, false,
		},
		{
			"watts alone",
			electrical.Plate{Input: 800, StartPower: 1500},
			electrical.Load{Running: 800, Starting: 1500}, electrical.StartWatts, false,
		},
		{
			"a measured start beats the plate's",
			electrical.Plate{Voltage: 100, Current: 10, Input: 800, MeasuredStart: 25, LockedRotor: 40},
			electrical.Load{Running: 800, RunningApparent: 1000, Starting: 2500, StartingApparent: 2500}, electrical.StartMeasured, true,
		},
		{
			"a start at a low power factor still ends in running",
			electrical.Plate{Voltage: 100, Current: 10, Input: 950, LockedRotor: 20, StartPowerFactor: 0.3},
			electrical.Load{Running: 950, RunningApparent: 1000, Starting: 950, StartingApparent: 2000}, electrical.StartLockedRotor, false,
		},
		{
			"rounded figures: 9.1 A at 120 V for 1,100 W",
			electrical.Plate{Voltage: 120, Current: 9.1, Input: 1100, StartPower: 2000},
			electrical.Load{Running: 1100, Starting: 2000}, electrical.StartWatts, false,
		},
	} {
		c.plate.Name, c.plate.Starts = "motor", electrical.ByHand
		c.want.Name, c.want.Starts = "motor", electrical.ByHand
		got, err := c.plate.Load()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for _, x := range []struct {
			field     string
			got, want float64
		}{
			{"running", float64(got.Running), float64(c.want.Running)},
			{"starting", float64(got.Starting), float64(c.want.Starting)},
			{"running apparent", float64(got.RunningApparent), float64(c.want.RunningApparent)},
			{"starting apparent", float64(got.StartingApparent), float64(c.want.StartingApparent)},
		} {
			if math.Abs(x.got-x.want) > 1e-9*x.want { // products of rounded decimals
				t.Errorf("%s: %s %v, want %v", c.name, x.field, x.got, x.want)
			}
		}
		if got.Basis != c.basis || got.AtMost != c.most {
			t.Errorf("%s: from the %v, at most %v", c.name, got.Basis, got.AtMost)
		}
	}
}

func TestPlate_errors(t *testing.T) {
	good := electrical.Plate{Name: "motor", Starts: electrical.ByHand, Voltage: 120, Current: 10, Input: 1000, LockedRotor: 40}
	for _, c := range []struct {
		name   string
		change func(*electrical.Plate)
		path   string
		kind   error
	}{
		{"nothing", func(p *electrical.Plate) { *p = electrical.Plate{} }, "name", units.ErrMissing},
		{"no start", func(p *electrical.Plate) { p.LockedRotor = 0 }, "start", units.ErrMissing},
		{"no running", func(p *electrical.Plate) { p.Input = 0 }, "input", units.ErrMissing},
		{"amperes times volts less than watts", func(p *electrical.Plate) { p.Input = 1300 }, "input", units.ErrConflict},
		{"more at the shaft than goes in", func(p *electrical.Plate) { p.ShaftPower = 1100 }, "shaftPower", units.ErrConflict},
		{"power factor against watts", func(p *electrical.Plate) { p.PowerFactor = 0.5 }, "powerFactor", units.ErrConflict},
		{"efficiency against watts", func(p *electrical.Plate) { p.ShaftPower, p.Efficiency = 500, 0.9 }, "efficiency", units.ErrConflict},
		{"start below running", func(p *electrical.Plate) { p.LockedRotor = 8 }, "lockedRotor", units.ErrConflict},
		{"clamp meter below running", func(p *electrical.Plate) { p.MeasuredStart = 8 }, "measuredStart", units.ErrConflict},
		{"start watts above volt-amperes", func(p *electrical.Plate) { p.StartPower = 6000 }, "startPower", units.ErrConflict},
		{"letter without horsepower", func(p *electrical.Plate) { p.LockedRotor, p.CodeLetter = 0, "G" }, "shaftPower", units.ErrMissing},
		{"no such letter", func(p *electrical.Plate) { p.LockedRotor, p.CodeLetter, p.ShaftPower = 0, "Q", 500 }, "codeLetter", units.ErrRange},
		{"open letter", func(p *electrical.Plate) { p.LockedRotor, p.CodeLetter, p.ShaftPower = 0, "V", 500 }, "codeLetter", units.ErrRange},
		{"start without volts", func(p *electrical.Plate) { p.Voltage = 0 }, "voltage", units.ErrMissing},
		{"no number", func(p *electrical.Plate) { p.Efficiency = units.Ratio(math.NaN()) }, "efficiency", units.ErrRange},
		{"starts", func(p *electrical.Plate) { p.Starts = 7 }, "starts", units.ErrRange},
	} {
		p := good
		c.change(&p)
		_, err := p.Load()
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path || !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v, want %v at %s", c.name, err, c.kind, c.path)
		}
	}
}

// A soft starter never worsens a peak, in watts or volt-amperes, by hand or not.
func TestSoftStarted_neverWorse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		loads := drawLoads(g, g.Int(1, 7), g.Bool())
		limits := electrical.Limits{Start: units.Power(g.LogFloat(1000, 9000))}
		if loads[0].RunningApparent > 0 {
			limits.StartApparent = units.ApparentPower(g.LogFloat(1000, 12_000))
		}
		before, err := electrical.StartsOn(loads, limits)
		if err != nil {
			return err
		}
		k := g.Int(0, len(loads)-1)
		soft, torque, err := loads[k].SoftStarted(units.Ratio(g.Float(1, 8)))
		if err != nil {
			return err
		}
		if !(torque > 0 && torque <= 1) || soft.Starting > loads[k].Starting || soft.StartingApparent > loads[k].StartingApparent {
			return fmt.Errorf("torque %v, %+v from %+v", torque, soft, loads[k])
		}
		if (torque < 1) != (soft.Starting < loads[k].Starting || soft.StartingApparent < loads[k].StartingApparent) && torque < 1-1e-9 {
			return fmt.Errorf("torque %v without a cut: %+v from %+v", torque, soft, loads[k])
		}
		loads[k] = soft
		after, err := electrical.StartsOn(loads, limits)
		if err != nil {
			return err
		}
		for _, x := range [][2]electrical.Demand{{before.Best.Peak, after.Best.Peak}, {before.Worst.Peak, after.Worst.Peak}, {before.Restart.Peak, after.Restart.Peak}} {
			a, err1 := limits.StartMargin(x[0])
			b, err2 := limits.StartMargin(x[1])
			if err1 != nil || err2 != nil {
				return errors.Join(err1, err2)
			}
			const rounding = 1e-7 // see TestStarts_lessAsksNoMore
			if float64(b) < float64(a)-rounding*(1+math.Abs(float64(a))) {
				return fmt.Errorf("margin fell from %v to %v", float64(a), float64(b))
			}
		}
		return nil
	})
}

func TestSoftStarted_errors(t *testing.T) {
	l := electrical.Load{Name: "pump", Running: 750, Starting: 2000, Starts: electrical.ByItself}
	for _, limit := range []units.Ratio{0, 0.5, 101, units.Ratio(math.NaN())} {
		if _, _, err := l.SoftStarted(limit); err == nil {
			t.Errorf("limit %v: no error", limit)
		}
	}
	if _, _, err := (electrical.Load{}).SoftStarted(2); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no load: %v", err)
	}
}

func FuzzPlate(f *testing.F) {
	f.Add(120.0, 10.0, 1000.0, 500.0, 0.6, 0.9, 0.0, 40.0, 0.5, "G")
	f.Add(120.0, 0.0, 0.0, 1e300, 5e-324, 0.9, 1.0, -40.0, math.NaN(), "Z")
	f.Fuzz(func(t *testing.T, v, i, in, shaft, eta, cos, measured, locked, startCos float64, letter string) {
		p := electrical.Plate{
			Name: "motor", Starts: electrical.ByHand, Voltage: units.Voltage(v), Current: units.Current(i), Input: units.Power(in),
			ShaftPower: units.Power(shaft), Efficiency: units.Ratio(eta), PowerFactor: units.Ratio(cos), MeasuredStart: units.Current(measured),
			LockedRotor: units.Current(locked), StartPowerFactor: units.Ratio(startCos), CodeLetter: letter,
		}
		l, err := p.Load()
		if err != nil {
			var field *units.FieldError
			if !errors.As(err, &field) {
				t.Fatalf("error without a field: %v", err)
			}
			return
		}
		if err := l.Validate(); err != nil {
			t.Fatalf("an invalid load %+v: %v", l, err)
		}
		if !(l.PowerFactor >= 0 && l.PowerFactor <= 1) || math.IsNaN(float64(l.StartCurrent)) || math.IsInf(float64(l.StartCurrent), 0) {
			t.Fatalf("%+v", l)
		}
	})
}
