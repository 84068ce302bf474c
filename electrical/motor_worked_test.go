package electrical_test

import (
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestLockedRotorOf_worked(t *testing.T) {
	const source = "NEMA MG 1 and NFPA 70 (NEC) Table 430.7(B), I = kVA/hp × hp × 1,000/V"
	for _, c := range []struct {
		question, letter string
		hp               units.Power
		volts            units.Voltage
		three, low       bool
		given            []string
		printed          string
	}{
		{"A 5 hp pump motor has code letter G: what may it draw at the start?", "G", 5, 230, false, false, []string{"5 hp", "code G, at most 6.29 kVA/hp", "230 V"}, "136.739 A"},
		{"And what at least?", "G", 5, 230, false, true, []string{"5 hp", "code G, at least 5.6 kVA/hp", "230 V"}, "121.739 A"},
		{"A 3 hp motor has code letter K: what may it draw at the start?", "K", 3, 230, false, false, []string{"3 hp", "code K, at most 8.99 kVA/hp", "230 V"}, "117.261 A"},
		{"A 2 hp motor on 115 V has code letter L: what may it draw at the start?", "L", 2, 115, false, false, []string{"2 hp", "code L, at most 9.99 kVA/hp", "115 V"}, "173.739 A"},
		{"And the 5 hp motor of code G as a three-phase one?", "G", 5, 230, true, false, []string{"5 hp", "code G, at most 6.29 kVA/hp", "230 V three-phase, 1/√3"}, "78.946 A"},
	} {
		l, err := electrical.LockedRotorOf(c.letter, c.hp*units.Horsepower, c.volts, c.three)
		if err != nil {
			t.Fatal(err)
		}
		got := l.HighCurrent
		if c.low {
			got = l.LowCurrent
		}
		worked.Check(t, worked.Case{Question: c.question, Source: source, Status: worked.Published, Given: c.given, Printed: c.printed, Got: got.In(units.Ampere)})
	}
}

func TestMotorConductorCurrent_worked(t *testing.T) {
	full, err := electrical.FullLoadCurrent(5*units.Horsepower, 230)
	if err != nil {
		t.Fatal(err)
	}
	i, err := electrical.MotorConductorCurrent(full)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "What must the conductors of a 5 hp motor at 230 V carry?",
		Source:   "NFPA 70 (NEC) 430.22 with Table 430.248, 1.25 × 28 A", Status: worked.Published, Given: []string{"5 hp", "230 V", "28 A by the table"},
		Printed: "35 A", Got: i.In(units.Ampere),
	})
}

func TestPlate_worked(t *testing.T) {
	pl, err := electrical.Plate{
		Name: "dump-pump", Starts: electrical.ByItself, Voltage: 115, Current: 9.8, ShaftPower: units.Horsepower / 2, Efficiency: 0.6,
		CodeLetter: "J", StartPowerFactor: 0.6,
	}.Load()
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"1/2 hp, efficiency 0.60", "115 V, 9.8 A", "code J, at most 7.99 kVA/hp", "starting power factor 0.6, assumed"}
	for _, c := range []struct {
		question, sum, printed string
		got                    float64
	}{
		{"A dump pump's plate says 1/2 hp, 9.8 A and code J: what does it run at?", "0.5 × 745.70/0.60", "621 W", pl.Running.In(units.Watt)},
		{"At which power factor?", "621.4/(115 × 9.8)", "0.551", float64(pl.PowerFactor)},
		{"And how many volt-amperes may it take to start?", "7.99 × 0.5 × 1,000", "3995 VA", pl.StartingApparent.In(units.VoltAmpere)},
		{"And how many watts?", "3,995 × 0.6", "2397 W", pl.Starting.In(units.Watt)},
	} {
		worked.Check(t, worked.Case{
			Question: c.question, Source: "definitions of power factor and efficiency, NEMA MG 1 code letters: " + c.sum, Status: worked.Identity,
			Given: given, Printed: c.printed, Got: c.got,
		})
	}
	soft, torque, err := pl.Load.SoftStarted(2)
	if err != nil {
		t.Fatal(err)
	}
	given = append(given, "soft starter at twice the running current")
	worked.Check(t, worked.Case{
		Question: "A soft starter holds the pump to twice its running current: what does the start take now?",
		Source:   "2 × 115 × 9.8", Status: worked.Identity, Given: given,
		Printed: "2254 VA", Got: soft.StartingApparent.In(units.VoltAmpere),
	})
	worked.Check(t, worked.Case{
		Question: "And how much of its pull at standstill is left?",
		Source:   "torque goes with the square of the current: (2,254/3,995)²", Status: worked.Identity, Given: given,
		Printed: "31.8 %", Got: torque.In(units.Percent),
	})
	_, err = electrical.Plate{Name: "heater", Starts: electrical.ByHand, Voltage: 120, Current: 10, Input: 1500, StartPower: 1500}.Load()
	text := ""
	if err != nil {
		text = err.Error()
	}
	worked.Text(t, worked.TextCase{
		Question: "A heater's plate says 120 V, 10 A and 1,500 W: what is wrong with it?",
		Source:   "120 × 10 = 1,200 VA cannot carry 1,500 W", Status: worked.Identity, Given: []string{"120 V", "10 A", "1,500 W"},
		Printed: "input = 1500 W: values contradict each other (want at most volts times amperes, 1200 VA)", Got: text,
	})
}
