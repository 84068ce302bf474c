package electrical_test

import (
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestGenerator_worked(t *testing.T) {
	f, err := electrical.GeneratorFrequency(3450*units.RPM, 2)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "The engine is loaded down to 3,450 rpm: what frequency does its two-pole generator make?",
		Source:   "f = n·p/120", Status: worked.Identity, Given: []string{"3,450 rpm", "two poles, one to one"},
		Printed: "57.5 Hz", Got: f.In(units.Hertz),
	})
	n, err := electrical.GeneratorSpeed(60, 4)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "How fast must a belt turn a four-pole generator for 60 Hz?",
		Source:   "n = 120·f/p", Status: worked.Identity, Given: []string{"60 Hz", "four poles"},
		Printed: "1800 rpm", Got: n.In(units.RPM),
	})
	f, err = electrical.DroopFrequency(63, 0.05, 0.5)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A set runs at 63 Hz with nothing on and has 5 % droop: what is it at half load?",
		Source:   "ISO 8528-5 definition of the droop: rated 63/1.05 = 60 Hz, half way between", Status: worked.Identity,
		Given: []string{"63 Hz without load", "droop 5 %", "half the rated load"}, Printed: "61.5 Hz", Got: f.In(units.Hertz),
	})
	v, err := electrical.RegulatedVoltage(120, 60, 45, 0.9)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "The engine idles down to 45 Hz with the burner still on: how many volts are left?",
		Source:   "regulator roll-off in proportion below a knee at 90 % of the frequency: 120 × 45/54", Status: worked.CommonPractice,
		Given: []string{"120 V at 60 Hz", "knee at 54 Hz", "45 Hz"}, Printed: "100 V", Got: v.In(units.Volt),
	})
}

func TestVoltageDip_worked(t *testing.T) {
	for _, c := range []struct {
		rating, start units.ApparentPower
		x             units.Ratio
		given         []string
		printed       string
	}{
		{10_000, 20_000, 0.25, []string{"10 kVA, X'd 0.25", "start 20 kVA"}, "33.33 %"},
		{12_000, 31_450, 0.20, []string{"12 kVA, X'd 0.20", "start 31.45 kVA"}, "34.39 %"},
		{50_000, 100_000, 0.15, []string{"50 kVA, X'd 0.15", "start 100 kVA"}, "23.08 %"},
	} {
		d, err := electrical.Alternator{Rating: c.rating, TransientReactance: c.x}.VoltageDip(c.start)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "A motor is started on a set: how far does the voltage dip?",
			Source:   "voltage divider, X'd/(X'd + S_g/S_s)", Status: worked.Identity, Given: c.given, Printed: c.printed, Got: d.In(units.Percent),
		})
	}
	s, err := electrical.Alternator{Rating: 10_000, TransientReactance: 0.25}.LargestStart(0.30)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "How large a start does a 10 kVA set bear with a dip of 30 %?",
		Source:   "the divider turned round, 10 × (0.3/0.7)/0.25", Status: worked.Identity, Given: []string{"10 kVA, X'd 0.25", "30 %"},
		Printed: "17.143 kVA", Got: s.In(units.KilovoltAmpere),
	})

	// The printed voltage behind the reactance gives the load before the start:
	// E = 1 + (0.02 + j0.25)(p − jq) = 1.0686 + j0.1072. The motor is what the
	// printed shunt R and X during the start have more.
	const (
		p = (0.02*0.0686 + 0.25*0.1072) / (0.02*0.02 + 0.25*0.25)
		q = (0.25*0.0686 - 0.02*0.1072) / (0.02*0.02 + 0.25*0.25)
	)
	a := electrical.Alternator{Rating: 1000, Resistance: 0.02, TransientReactance: 0.25}
	d, err := a.StartDip(demandOf(1000*p, 1000*q), demandOf(1000*(1/1.4095-p), 1000*(1/0.7991-q)))
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A large motor is started on a generator that carries other load: how far does the voltage dip?",
		Source:   "A. L. Sheldrake, Handbook of Electrical Engineering, Wiley 2003, Appendix G (|V| = 0.8040; one copy prints the imaginary part of E with the wrong sign)",
		Status:   worked.Published, Given: []string{"source 0.02 + j0.25 per unit", "E = 1.0686 + j0.1072 before the start", "all loads during the start R 1.4095 and X 0.7991 per unit in parallel"},
		Printed: "19.6 %", Got: d.In(units.Percent),
	})

	v, err := electrical.Alternator{Rating: 1000, TransientReactance: 0.2, SynchronousReactance: 2}.SustainedVoltage(2.5, electrical.Demand{Apparent: 1500})
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A pump does not come up to speed and keeps drawing 1.5 times the set's rating: where does the voltage stay?",
		Source:   "excitation ceiling over the divider of Xd: 2.5/(1 + 2 × 1.5)", Status: worked.Identity,
		Given: []string{"Xd 2.0, ceiling 2.5 per unit", "1.5 per unit, all lagging"}, Printed: "62.5 %", Got: v.In(units.Percent),
	})
	r, err := electrical.RecoveryTime(0.25, 0, 0.05, 0.3)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A dip of 25 % has to come back to 5 %: how long does the regulator take?",
		Source:   "first-order lag, 0.3 s × ln 5", Status: worked.Identity, Given: []string{"dip 25 %, band 5 %", "time constant 0.3 s"},
		Printed: "0.48 s", Got: r.In(units.Second),
	})
}

func TestFrequencyDip_worked(t *testing.T) {
	// 2·H·T·R = 2 × 0.5 × 0.4 × 0.05 = 0.02 s², so ω_n = 7.0711/s, T·ω_n = 2.8284,
	// ω_d = √(50 − 1.5625) = 6.9597/s, t = (π − arctan 5.5678)/ω_d = 0.25126 s,
	// dip = 0.05 × 0.6 × (1 + 2.8284 × e^−0.31408).
	d, err := electrical.Governed{Rated: 5000, Inertia: 0.5, Droop: 0.05, TimeConstant: 0.4}.FrequencyDip(3000)
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"5 kW set, H 0.5 s, governor 0.4 s, droop 5 %", "3 kW put on at once"}
	const source = "swing equation with a first-order governor, closed form worked by hand (checked by integration in the tests)"
	for _, c := range []struct {
		question, printed string
		got               float64
	}{
		{"3 kW is switched on at a 5 kW set: how far does the frequency dip?", "9.20 %", d.Dip.In(units.Percent)},
		{"How far in the end?", "3.00 %", d.Lasting.In(units.Percent)},
		{"When is it deepest?", "0.251 s", d.At.In(units.Second)},
		{"How fast does it fall at first, in per cent per second?", "60 %", d.InitialRate.In(units.Percent)},
	} {
		worked.Check(t, worked.Case{Question: c.question, Source: source, Status: worked.Identity, Given: given, Printed: c.printed, Got: c.got})
	}
}

func TestFanMotor_worked(t *testing.T) {
	// Slip at the rated point 150/3,600 = 4.1667 %; Δ_b = 150 × (2 + √3) = 559.8 rpm.
	m := electrical.FanMotor{Voltage: 120, Frequency: 60, Poles: 2, Speed: 3450 * units.RPM, Breakdown: 2}
	low, err := m.At(96, 60)
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"two poles, 3,450 rpm at 120 V and 60 Hz", "greatest torque twice the rated one"}
	const source = "M. Kloss 1916 and the affinity laws, 4k/(Δ/559.81 + 559.81/Δ) = (n/3,450)² with k = (V/120 · 60/f)², solved with scipy 1.10.1 (brentq): n = "
	worked.Check(t, worked.Case{
		Question: "The burner's fan gets 96 V at the end of its cord: how much of its air is left?",
		Source:   source + "3,353.289 rpm", Status: worked.Computed,
		Given: append(given, "96 V, 60 Hz"), Printed: "97.1968 %", Got: low.Air.In(units.Percent),
	})
	slow, err := m.At(110, 55)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "And at 110 V and 55 Hz, with the engine pulled down?",
		Source:   source + "3,175.569 rpm", Status: worked.Computed,
		Given: append(given, "110 V, 55 Hz"), Printed: "92.0455 %", Got: slow.Air.In(units.Percent),
	})
	stalled, err := m.At(60, 60)
	if err != nil {
		t.Fatal(err)
	}
	verdict := "it runs"
	if !stalled.Holds {
		verdict = "it pulls out"
	}
	worked.Text(t, worked.TextCase{
		Question: "And at 60 V?",
		Source:   "a quarter of the torque, 0.5 of the rated one at most, while the fan takes (3,040/3,450)² = 0.777 there", Status: worked.Identity,
		Given: append(given, "60 V, 60 Hz"), Printed: "it pulls out", Got: verdict,
	})
}

func TestPerformanceClass_worked(t *testing.T) {
	c, err := electrical.PerformanceClassNamed("G2")
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "How far may the voltage of a class G2 set dip on a sudden load?",
		Source:   "ISO 8528-5, read in a public government generator specification", Status: worked.Published, Given: []string{"class G2"},
		Printed: "20 %", Got: c.VoltageDip.In(units.Percent),
	})
	c, err = electrical.PerformanceClassNamed("G1")
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "And that of a class G1 set?",
		Source:   "ISO 8528-5", Status: worked.FromMemory, Given: []string{"class G1"},
		Printed: "25 %", Got: c.VoltageDip.In(units.Percent),
	})
}
