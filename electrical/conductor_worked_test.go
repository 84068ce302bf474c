package electrical_test

import (
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestGauge_worked(t *testing.T) {
	const source = "ASTM B258, d = 0.005 in × 92^((36 − n)/39)"
	ten := electrical.Gauge(10)
	d, err := ten.Diameter()
	if err != nil {
		t.Fatal(err)
	}
	a, err := ten.Area()
	if err != nil {
		t.Fatal(err)
	}
	aught, err := electrical.Gauge4_0.Diameter()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		question, given, printed string
		got                      float64
	}{
		{"How thick is 10 AWG?", "n = 10", "0.101897 in", d.In(units.Inch)},
		{"And what is its cross-section?", "n = 10", "5.2612 mm²", float64(a) * 1e6},
		{"How thick is 4/0 AWG?", "n = -3", "0.46000 in", aught.In(units.Inch)},
	} {
		worked.Check(t, worked.Case{Question: c.question, Source: source, Status: worked.Identity, Given: []string{c.given}, Printed: c.printed, Got: c.got})
	}
}

func TestResistance_worked(t *testing.T) {
	pure, err := electrical.AnnealedCopperResistance(10, units.Celsius(75))
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "What is the resistance of a solid 10 AWG copper wire at 75 °C, from first principles?",
		Source:   "International Annealed Copper Standard: 10.371/10,383.02 Ω/ft × 1,000 × (1 + 0.00393 × 55)", Status: worked.Identity,
		Given:   []string{"10 AWG, 10,383.02 circular mils", "75 °C"},
		Printed: "1.2147 ohm/kft", Got: pure.In(units.OhmPerKilofoot),
	})
	hot, err := electrical.Conductor{Gauge: 10}.Resistance(units.Celsius(75))
	if err != nil {
		t.Fatal(err)
	}
	cold, err := electrical.Conductor{Gauge: 10}.Resistance(units.Celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "The table is for 75 °C: how much of it has a copper wire at 20 °C?",
		Source:   "NFPA 70 (NEC) Chapter 9 Table 8 note 2, 1 + 0.00323 × (20 − 75); a public note says about 82 %", Status: worked.Published,
		Given:   []string{"copper", "20 °C"},
		Printed: "82 %", Got: 100 * float64(cold/hot),
	})
	worked.Check(t, worked.Case{
		Question: "What is the resistance of a stranded 10 AWG wire at 20 °C?",
		Source:   "NFPA 70 (NEC) Chapter 9 Table 8 and note 2: 1.24 × 0.82235", Status: worked.Identity,
		Given:   []string{"10 AWG stranded copper, 1.24 ohm/kft at 75 °C", "20 °C"},
		Printed: "1.02 ohm/kft", Got: cold.In(units.OhmPerKilofoot),
	})
}

func TestEffectiveImpedance_worked(t *testing.T) {
	for _, c := range []struct {
		gauge   electrical.Gauge
		printed string
		tol     float64
	}{{10, "1.1 ohm/kft", 0.0925}, {8, "0.69 ohm/kft", 0}} {
		r, x, err := electrical.ConduitImpedance(c.gauge, electrical.PlasticConduit)
		if err != nil {
			t.Fatal(err)
		}
		z, err := electrical.EffectiveImpedance(r, x, 0.85)
		if err != nil {
			t.Fatal(err)
		}
		k := worked.Case{
			Question: "What is the effective impedance of " + c.gauge.String() + " wires in plastic conduit at a power factor of 0.85?",
			Source:   "NFPA 70 (NEC) Chapter 9 Table 9 and note 2, Z = R cos φ + X sin φ", Status: worked.Published,
			Given:   []string{"R and X of the table", "power factor 0.85"},
			Printed: c.printed, Got: z.In(units.OhmPerKilofoot), Tolerance: c.tol,
		}
		if c.tol > 0 {
			k.Reason = "half a unit of the printed 1.1, and 0.85 of half a unit of the R = 1.2 that the table prints and we start from"
		}
		worked.Check(t, k)
	}
}

func TestDrop_worked(t *testing.T) {
	for _, c := range []struct {
		question, source string
		status           worked.Status
		circuit          electrical.Circuit
		current          units.Current
		given            []string
		printed          string
		share            bool
		tol              float64
		reason           string
	}{
		{
			"A 240 V pump draws 28 A through 150 ft of 10 AWG: how many volts are lost?",
			"2 × 150 ft × 1.24 ohm/kft × 28 A / 1,000, resistance of NEC Chapter 9 Table 8", worked.Identity,
			electrical.Circuit{Conductor: electrical.Conductor{Gauge: 10}, Length: 150 * units.Foot, Temperature: units.Celsius(75), Supply: 240}, 28,
			[]string{"150 ft of 10 AWG stranded copper at 75 °C", "28 A", "240 V"}, "10.416 V", false, 0, "",
		},
		{
			"And in per cent?", "10.416/240", worked.Identity,
			electrical.Circuit{Conductor: electrical.Conductor{Gauge: 10}, Length: 150 * units.Foot, Temperature: units.Celsius(75), Supply: 240}, 28,
			[]string{"150 ft of 10 AWG stranded copper at 75 °C", "28 A", "240 V"}, "4.34 %", true, 0, "",
		},
		{
			"A vacuum motor draws 16 A through 100 ft of 12 AWG on 120 V: how much is lost?",
			"2 × 100 ft × 1.98 ohm/kft × 16 A / 1,000 over 120 V, NEC Chapter 9 Table 8; a public note finds more than 5 %", worked.Identity,
			electrical.Circuit{Conductor: electrical.Conductor{Gauge: 12}, Length: 100 * units.Foot, Temperature: units.Celsius(75), Supply: 120}, 16,
			[]string{"100 ft of 12 AWG stranded copper at 75 °C", "16 A", "120 V"}, "5.28 %", true, 0, "",
		},
		{
			"20 A at the end of 100 ft of 10 AWG on 120 V: how many volts are lost?",
			"a public answer to the question, 4.8 V or 4 %", worked.Published,
			electrical.Circuit{Conductor: electrical.Conductor{Gauge: 10}, Length: 100 * units.Foot, Temperature: units.Celsius(75), Supply: 120}, 20,
			[]string{"100 ft of 10 AWG copper", "20 A", "120 V"}, "4.8 V", false, 0.165,
			"the answer takes 1.2 ohm/kft (solid wire in conduit, NEC Table 9); a stranded cord has 1.24 at 75 °C, which is 4.96 V",
		},
		{
			"15 A through 110 ft of 12 AWG on 120 V in the morning, with the cord at 20 °C: how many volts are lost?",
			"2 × 110 ft × 1.98 × 0.82235 ohm/kft × 15 A / 1,000", worked.Identity,
			electrical.Circuit{Conductor: electrical.Conductor{Gauge: 12}, Length: 110 * units.Foot, Temperature: units.Celsius(20), Supply: 120}, 15,
			[]string{"110 ft of 12 AWG stranded copper at 20 °C", "15 A", "120 V"}, "5.37 V", false, 0, "",
		},
		{
			"And in the sun, with the cord at 75 °C? Now it is more than 5 %.",
			"2 × 110 ft × 1.98 ohm/kft × 15 A / 1,000 over 120 V", worked.Identity,
			electrical.Circuit{Conductor: electrical.Conductor{Gauge: 12}, Length: 110 * units.Foot, Temperature: units.Celsius(75), Supply: 120}, 15,
			[]string{"110 ft of 12 AWG stranded copper at 75 °C", "15 A", "120 V"}, "5.4 %", true, 0, "",
		},
	} {
		d, err := c.circuit.Drop(c.current, 1)
		if err != nil {
			t.Fatal(err)
		}
		got := d.Lost.In(units.Volt)
		if c.share {
			got = d.Share.In(units.Percent)
		}
		worked.Check(t, worked.Case{
			Question: c.question,
			Source:   c.source, Status: c.status, Given: c.given, Printed: c.printed, Got: got, Tolerance: c.tol, Reason: c.reason,
		})
	}

	// A start is an impedance: 60 A at 120 V and power factor 1 is 2 Ω.
	c := electrical.Circuit{Conductor: electrical.Conductor{Gauge: 12}, Length: 100 * units.Foot, Temperature: units.Celsius(75), Supply: 120}
	s, err := c.StartDrop(60, 120, 1)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A motor that takes 60 A to start hangs on 100 ft of 12 AWG: how many volts has it for the start?",
		Source:   "voltage divider, 120 × 2/(2 + 0.396); the current falls with the voltage", Status: worked.Identity,
		Given:   []string{"60 A at 120 V, power factor taken as 1", "100 ft of 12 AWG at 75 °C, 0.396 ohm there and back"},
		Printed: "100.2 V", Got: s.AtLoad.In(units.Volt),
	})
}

func TestChooseCord_worked(t *testing.T) {
	need := electrical.CordNeed{
		Supply: 120, Length: 110 * units.Foot, Temperature: units.Celsius(75), Carrying: 2,
		Current: 15, PowerFactor: 1, Continuous: 0.8, RunDrop: 0.05,
	}
	given := []string{"15 A for hours, at most 80 % of the breaker", "110 ft, conductors at 75 °C", "120 V, at most 5 % lost"}
	best, ok, _, err := electrical.ChooseCord(need)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	worked.Text(t, worked.TextCase{
		Question: "Which cord for a 15 A vacuum motor 110 ft away, with 5 % to lose?",
		Source:   "NFPA 70 (NEC) Chapter 9 Table 8: 12 AWG 5.4 % is too much, 10 AWG 2 × 110 × 1.24 × 15/1,000/120 = 3.4 % is not", Status: worked.Identity,
		Given: given, Printed: "10 AWG", Got: best.Gauge.String(),
	})
	worked.Check(t, worked.Case{
		Question: "And behind which breaker?",
		Source:   "NFPA 70 (NEC) 240.6(A) and 210.20(A): the smallest standard size of at least 15/0.8 = 18.75 A", Status: worked.Published,
		Given: given, Printed: "20 A", Got: best.Breaker.In(units.Ampere),
	})
	need.Length = 25 * units.Foot
	best, ok, all, err := electrical.ChooseCord(need)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	worked.Text(t, worked.TextCase{
		Question: "And if it is only 25 ft away?",
		Source:   "NFPA 70 (NEC) Table 400.5(A)(1) column B: 14 AWG carries 18 A, less than the 20 A breaker that protects it; 12 AWG carries 25 A", Status: worked.Published,
		Given: []string{"15 A for hours, at most 80 % of the breaker", "25 ft"}, Printed: "12 AWG", Got: best.Gauge.String(),
	})
	if c := all[2]; c.Gauge != 14 || c.Protected || !c.RunPasses || !c.Carries {
		t.Errorf("14 AWG: %+v", c)
	}
}

func TestBreakers_worked(t *testing.T) {
	b, err := electrical.BreakerFor(16, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "16 A run for hours: which breaker?",
		Source:   "NFPA 70 (NEC) 240.6(A) and 210.20(A), 16/0.8", Status: worked.Published, Given: []string{"16 A", "80 %"},
		Printed: "20 A", Got: b.In(units.Ampere),
	})
	for _, c := range []struct {
		gauge   electrical.Gauge
		printed string
	}{{14, "15 A"}, {12, "20 A"}, {10, "30 A"}} {
		b, err := electrical.LargestBreaker(c.gauge)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "What is the greatest breaker for copper building wire of " + c.gauge.String() + "?",
			Source:   "NFPA 70 (NEC) 240.4(D), public summaries", Status: worked.Published, Given: []string{c.gauge.String()},
			Printed: c.printed, Got: b.In(units.Ampere),
		})
	}
	s, err := electrical.ShoreSupply("shore", 120, 20, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "What runs for hours on a 20 A shore cord?",
		Source:   "120 V × 20 A × 0.8", Status: worked.Identity, Given: []string{"120 V", "20 A breaker", "80 %"},
		Printed: "1920 W", Got: s.Rated.In(units.Watt),
	})
}

func TestAluminum_worked(t *testing.T) {
	cold, err := electrical.Conductor{Gauge: electrical.Gauge4_0, Material: electrical.Aluminum}.Resistance(units.Celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "And that of a stranded 4/0 AWG aluminum wire at 20 °C?",
		Source:   "NFPA 70 (NEC) Chapter 9 Table 8 and note 2 with its 0.00330/K for aluminum from memory: 0.100 × (1 − 0.00330 × 55)", Status: worked.FromMemory,
		Given:   []string{"4/0 AWG, 0.100 ohm/kft at 75 °C", "20 °C"},
		Printed: "0.08185 ohm/kft", Got: cold.In(units.OhmPerKilofoot),
	})
}

func TestDropHeat_worked(t *testing.T) {
	c := electrical.Circuit{Conductor: electrical.Conductor{Gauge: 10}, Length: 150 * units.Foot, Temperature: units.Celsius(75), Supply: 240 * units.Volt}
	one, err := c.Drop(28*units.Ampere, 1)
	if err != nil {
		t.Fatal(err)
	}
	c.ThreePhase = true
	three, err := c.Drop(28*units.Ampere, 1)
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"150 ft of 10 AWG stranded copper at 75 °C, 0.186 ohm one way", "28 A"}
	worked.Check(t, worked.Case{
		Question: "A 240 V pump draws 28 A through 150 ft of 10 AWG: how warm does the cord get, in watts?",
		Source:   "I²·R of both wires by hand: 28² × 2 × 0.186", Status: worked.Identity, Given: given,
		Printed: "291.6 W", Got: one.Heat.In(units.Watt),
	})
	worked.Check(t, worked.Case{
		Question: "And a three-phase one of the same current?",
		Source:   "I²·R of three wires by hand: 28² × 3 × 0.186", Status: worked.Identity, Given: given,
		Printed: "437.5 W", Got: three.Heat.In(units.Watt),
	})
	worked.Check(t, worked.Case{
		Question: "How many volts does that cost from line to line?",
		Source:   "√3 × 0.186 × 28 by hand", Status: worked.Identity, Given: given,
		Printed: "9.021 V", Got: three.Lost.In(units.Volt),
	})
}
