package electrical_test

import (
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// A row of each table as a question; the whole tables are in tables_test.go and
// motor_test.go.
func TestTables_worked(t *testing.T) {
	check := func(question, source string, status worked.Status, given, printed string, got float64, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{Question: question, Source: source, Status: status, Given: []string{given}, Printed: printed, Got: got})
	}
	r, err := electrical.Conductor{Gauge: 12}.Resistance(units.Celsius(75))
	check("What is the resistance of stranded 12 AWG copper at 75 °C?", "NFPA 70 (NEC) Chapter 9 Table 8, public reproduction", worked.Published, "12 AWG, 7 strands, uncoated", "1.98 ohm/kft", r.In(units.OhmPerKilofoot), err)
	r, err = electrical.Conductor{Gauge: electrical.Gauge4_0, Material: electrical.Aluminum}.Resistance(units.Celsius(75))
	check("And that of 4/0 AWG aluminum?", "NFPA 70 (NEC) Chapter 9 Table 8, public reproduction", worked.Published, "4/0 AWG", "0.100 ohm/kft", r.In(units.OhmPerKilofoot), err)
	_, x, err := electrical.ConduitImpedance(6, electrical.SteelConduit)
	check("What is the reactance of 6 AWG wires in steel conduit?", "NFPA 70 (NEC) Chapter 9 Table 9, two public reproductions", worked.Published, "6 AWG, 60 Hz", "0.064 ohm/kft", x.In(units.OhmPerKilofoot), err)
	i, _, err := electrical.CordAmpacity(12, 2)
	check("What does a hard-service cord of 12 AWG carry on 120 V?", "NFPA 70 (NEC) Table 400.5(A)(1), column B", worked.Published, "two conductors carry current, 30 °C", "25 A", i.In(units.Ampere), err)
	i, _, err = electrical.CordAmpacity(12, 3)
	check("And with three conductors that carry current?", "NFPA 70 (NEC) Table 400.5(A)(1), column A", worked.Published, "12 AWG, 30 °C", "20 A", i.In(units.Ampere), err)
	i, _, err = electrical.CordAmpacity(13, 2)
	check("What does a cord of 13 AWG carry on 120 V?", "NFPA 70 (NEC) Table 400.5(A)(1), column B", worked.FromMemory, "two conductors carry current, 30 °C", "21 A", i.In(units.Ampere), err)
	i, err = electrical.TypeWAmpacity(6, units.Celsius(90), 3)
	check("What does a Type W cable of 6 AWG with three conductors carry?", "NFPA 70 (NEC) Table 400.5(A)(2), by H. C. Box, Set Lighting Technician's Handbook, 4th ed., Appendix D", worked.Published, "90 °C rating, 30 °C ambient", "87 A", i.In(units.Ampere), err)
	i, err = electrical.FullLoadCurrent(units.Horsepower/2, 115)
	check("By which current does the code size the conductors of a 1/2 hp pump on 115 V?", "NFPA 70 (NEC) Table 430.248, two public reproductions", worked.Published, "1/2 hp, 115 V", "9.8 A", i.In(units.Ampere), err)
	o, err := electrical.OutletNamed("5-20R")
	check("How many amperes is a 5-20R receptacle for?", "ANSI/NEMA WD 6, public summary", worked.Published, "5-20R", "20 A", o.Current.In(units.Ampere), err)
	o, err = electrical.OutletNamed("TT-30R")
	check("And a TT-30R?", "ANSI/NEMA WD 6", worked.FromMemory, "TT-30R", "30 A", o.Current.In(units.Ampere), err)
}

// Loads of different power factor: watts alone would choose another order.
func TestStartsOn_worked(t *testing.T) {
	loads := []electrical.Load{
		{Name: "heater-fan", Running: 1000, Starting: 1600, RunningApparent: 1000, StartingApparent: 1600, Starts: electrical.ByHand},
		{Name: "pump", Running: 600, Starting: 800, RunningApparent: 1000, StartingApparent: 4000, Starts: electrical.ByHand},
	}
	limits := electrical.Limits{Start: 4000, StartApparent: 5000}
	r, err := electrical.StartsOn(loads, limits)
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"fan 1,000 W and VA running, 1,600 starting", "pump 600 W and 1,000 VA running, 800 W and 4,000 VA starting", "set 4,000 W and 5,000 VA starting"}
	worked.Text(t, worked.TextCase{
		Question: "A fan with a brush motor and a pump with a poor power factor share a set: which goes first?",
		Source:   "hand sum: the pump last needs √((1,000 + 800)² + 3,919²) = 4,313 VA, first 4,000; in watts alone the fan would go first",
		Status:   worked.Identity, Given: given, Printed: "pump", Got: r.Best.Order()[0],
	})
	worked.Check(t, worked.Case{
		Question: "And the volt-amperes of the wrong order?",
		Source:   "hand sum: √[(1,000 + 800)² + (4,000² − 800²)]", Status: worked.Identity, Given: given,
		Printed: "4313 VA", Got: r.Worst.Peak.Apparent.In(units.VoltAmpere),
	})
}
