package hydraulics_test

import (
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestPump_geometry(t *testing.T) {
	v := must(hydraulics.Plungers{Count: 3, Diameter: 18 * units.Millimeter, Stroke: 18 * units.Millimeter}.Displacement())(t)
	worked.Check(t, worked.Case{Question: "What does a triplex of 18 mm by 18 mm displace?", Source: "3 (π/4) d² s", Status: worked.Identity,
		Given: []string{"3 plungers", "d = 18 mm", "s = 18 mm"}, Printed: "13.741 mL", Got: float64(v) * 1e6})
	worked.Check(t, worked.Case{Question: "What does it deliver at 1,450 rpm and 95 %?", Source: "V n η", Status: worked.Identity,
		Given: []string{"13.7413 mL a turn", "1,450 rpm", "η = 0.95"}, Printed: "18.929 L/min",
		Got: must(hydraulics.PumpFlow(v, 1450*units.RPM, 0.95))(t).In(units.LiterPerMinute)})
	plate := must(hydraulics.PlateDisplacement(gpm(4), 1450*units.RPM))(t)
	worked.Check(t, worked.Case{Question: "A plate says 4 gpm at 1,450 rpm: what comes at 1,400 rpm under load?", Source: "flow in proportion to speed", Status: worked.Identity,
		Given: []string{"4 gpm at 1,450 rpm", "1,400 rpm"}, Printed: "3.8621 gpm", Got: must(hydraulics.PumpFlow(plate, 1400*units.RPM, 1))(t).In(units.GallonPerMinute)})
	worked.Check(t, worked.Case{Question: "At what speed does a gear of 2.2 drive the pump?", Source: "n₂ = n₁/i", Status: worked.Identity,
		Given: []string{"3,400 rpm", "i = 2.2"}, Printed: "1,545 rpm", Got: must(hydraulics.GearedSpeed(3400*units.RPM, 2.2))(t).In(units.RPM)})
}

func TestBelt(t *testing.T) {
	b := hydraulics.Belt{Driver: inch(4), Driven: inch(9), Center: inch(18), Slip: 0.02}
	r := must(b.At(3400 * units.RPM))(t)
	given := []string{"4 in on the motor, 9 in on the pump", "18 in between shafts", "3,400 rpm", "slip 2 %"}
	for _, c := range []struct {
		question, source, printed string
		got                       float64
	}{
		{"How fast does the belt drive the pump?", "n₁ D₁/D₂ (1 − s)", "1,480.9 rpm", r.Driven.In(units.RPM)},
		{"How fast is the belt?", "π D₁ n₁", "3,560 ft/min", r.Speed.In(units.FootPerMinute)},
		{"How far does it wrap the small pulley?", "180° − 2 asin((D−d)/2C)", "164.03 °", float64(r.Wrap) * 180 / math.Pi},
		{"How long is it along the pitch line?", "2C cos α + π(D+d)/2 + α(D−d)", "56.768 in", r.Length.In(units.Inch)},
	} {
		worked.Check(t, worked.Case{Question: c.question, Source: c.source + ", by arithmetic", Status: worked.Identity, Given: given, Printed: c.printed, Got: c.got})
	}
	// Handbooks give the length as 2C + 1.57 (D+d) + (D−d)²/4C and the wrap as
	// 180° − 60° (D−d)/C.
	worked.Check(t, worked.Case{Question: "How long is the belt by the handbook's short form?", Source: "2C + 1.57 (D+d) + (D−d)²/4C", Status: worked.FromMemory, Given: given,
		Printed: "56.76 in", Got: r.Length.In(units.Inch), Tolerance: 0.015, Reason: "1.57 rounds π/2 by 5e-4 and the series stops after its first term"})
}

func TestPulleyPlan_neighbours(t *testing.T) {
	p := hydraulics.PulleyPlan{Motor: 3400 * units.RPM, Driven: inch(9), Slip: 0.02, Displacement: must(hydraulics.PlateDisplacement(gpm(6.8), 1450*units.RPM))(t)}
	var stock []units.Length
	for d := 3.0; d <= 5.01; d += 0.25 {
		stock = append(stock, inch(d))
	}
	f := must(p.Fit(gpm(6.8), stock))(t)
	given := []string{"motor 3,400 rpm under load", "9 in pulley on the pump", "plate 6.8 gpm at 1,450 rpm", "slip 2 %", "stock 3 to 5 in in quarters"}
	for _, c := range []struct {
		question, printed string
		got               float64
	}{
		{"Which pulley gives exactly 6.8 gpm?", "3.9166 in", f.Exact.Driver.In(units.Inch)},
		{"Which stocked pulley is next below?", "3.75 in", f.Below.Driver.In(units.Inch)},
		{"What does the smaller one deliver?", "6.511 gpm", f.Below.Flow.In(units.GallonPerMinute)},
		{"What does the larger one, 4 in, deliver?", "6.945 gpm", f.Above.Flow.In(units.GallonPerMinute)},
		{"How fast does the larger one turn the pump?", "1,480.9 rpm", f.Above.Speed.In(units.RPM)},
	} {
		worked.Check(t, worked.Case{Question: c.question, Source: "n₂ = n₁ D₁/D₂ (1 − s)", Status: worked.Identity, Given: given, Printed: c.printed, Got: c.got})
	}
}

func TestSurge(t *testing.T) {
	const rho, c = 998.20609, 1483.4189
	dp := must(hydraulics.Joukowsky(rho, c, 1))(t)
	worked.Check(t, worked.Case{Question: "What does stopping 1 m/s at once add in a rigid pipe?", Source: "Joukowsky, ρ a Δv, with IAPWS water at 20 °C", Status: worked.Computed,
		Given: []string{"ρ = 998.20609 kg/m³", "a = 1483.4189 m/s"}, Printed: "214.76576 psi", Got: dp.In(units.PSI)})
	a := must(hydraulics.WaveSpeed(2.2e9, 1000, 0.3, 0.01, 207e9))(t)
	given := []string{"K = 2.2 GPa", "ρ = 1000 kg/m³", "D = 0.3 m, e = 10 mm", "E = 207 GPa"}
	worked.Check(t, worked.Case{Question: "How fast is a pressure wave in this steel pipe?", Source: "Korteweg, textbook data, by arithmetic", Status: worked.Identity, Given: given,
		Printed: "1291.5617941593 m/s", Got: float64(a)})
	worked.Check(t, worked.Case{Question: "What does stopping 2 m/s in it add?", Source: "Joukowsky, textbook data, by arithmetic", Status: worked.Identity, Given: given,
		Printed: "2.583123588 MPa", Got: must(hydraulics.Joukowsky(1000, a, 2))(t).In(units.Megapascal)})
	// The same wall by what it swells: a metre of it takes Δp D/(E e) of its content more.
	metre := math.Pi / 4 * 0.3 * 0.3
	swell := units.Volume(metre * 1e6 * 0.3 / (207e9 * 0.01))
	worked.Check(t, worked.Case{Question: "And if only its swelling by 1 MPa is known?", Source: "Korteweg, textbook data, by arithmetic", Status: worked.Identity, Given: given,
		Printed: "1291.5617941593 m/s", Got: float64(must(hydraulics.HoseWaveSpeed(2.2e9, 1000, 0.3, 1, swell, 1e6))(t))})
	worked.Check(t, worked.Case{Question: "A foot of 3/8 in hose takes 2.0 mL more at 3,000 psi: how fast is the wave in it?", Source: "1/√(ρ (1/K + ΔV/(V Δp))), by hand", Status: worked.Identity,
		Given: []string{"3/8 in true bore, 21.72 mL a foot", "K = 2.2 GPa", "999.016 kg/m³"}, Printed: "1,482 ft/s",
		Got: must(hydraulics.HoseWaveSpeed(2.2e9, 999.016, inch(0.375), feet(1), 2e-6, psi(3000)))(t).In(units.FootPerSecond)})
	v := 0.04 / (math.Pi / 4 * 0.15 * 0.15)
	worked.Check(t, worked.Case{Question: "A valve closes in half a second at the end of 500 m: what pressure does it add?", Source: "Choudhary and Om Prakash, Fluid Mechanics, example 7.19, Δp = ρ L v/t", Status: worked.FromMemory,
		Given: []string{"150 mm pipe, 40 L/s", "500 m", "0.5 s"}, Printed: "2.2635 MPa",
		Got: must(hydraulics.SlowClosing(1000, 500, units.Velocity(v), 0.5))(t).In(units.Megapascal)})

	// A hose of unknown wave speed.
	s := must(hydraulics.TriggerSurge(hydraulics.Closing{Density: 999.0156, Speed: 12 * units.FootPerSecond, Length: feet(150)}))(t)
	band := []string{"60 °F water", "12 ft/s", "wave 1,500 to 4,000 ft/s"}
	worked.Check(t, worked.Case{Question: "The trigger stops 12 ft/s: what does it add at least?", Source: "ρ a v with the band of wave speeds", Status: worked.CommonPractice, Given: band,
		Printed: "242 psi", Got: s.Low.In(units.PSI)})
	worked.Check(t, worked.Case{Question: "The trigger stops 12 ft/s: what does it add at most?", Source: "ρ a v with the band of wave speeds", Status: worked.CommonPractice, Given: band,
		Printed: "646 psi", Got: s.High.In(units.PSI)})
	// Slow closing: 2 ρ L v/t below both.
	slow := must(hydraulics.TriggerSurge(hydraulics.Closing{Density: 1000, Speed: 4, Length: 45, Time: 0.4}))(t)
	worked.Check(t, worked.Case{Question: "The same on 45 m, but the trigger takes 0.4 s: what does it add?", Source: "Michaud, 2 ρ L v/t", Status: worked.Identity,
		Given: []string{"ρ = 1000 kg/m³", "4 m/s", "45 m", "0.4 s"}, Printed: "900 kPa", Got: slow.High.In(units.Kilopascal)})
	if slow.Low != slow.High {
		t.Errorf("slow closing still depends on the wave speed: %v to %v", slow.Low, slow.High)
	}
}

func TestWear(t *testing.T) {
	worked.Check(t, worked.Case{Question: "How much may a tip wear until 10 % of the pressure is gone?", Source: "1/√0.9 − 1", Status: worked.CommonPractice,
		Given: []string{"constant flow"}, Printed: "5.4 %", Got: 100 * float64(must(hydraulics.WearAtLoss(0.1))(t))})
	worked.Check(t, worked.Case{Question: "A tip has grown by 8 % in area: what pressure is lost?", Source: "1 − 1/1.08²", Status: worked.CommonPractice,
		Given: []string{"constant flow"}, Printed: "14 %", Got: 100 * float64(must(hydraulics.LossAtWear(0.08))(t))})
}

func TestSprayWidth(t *testing.T) {
	worked.Check(t, worked.Case{Question: "How wide does a 25° fan cover at 12 in?", Source: "2 s tan(θ/2)", Status: worked.Identity,
		Given: []string{"25°", "12 in"}, Printed: "5.32 in", Got: must(hydraulics.SprayWidth(25*units.Degree, inch(12)))(t).In(units.Inch)})
	worked.Check(t, worked.Case{Question: "Which tips does a bar of three take for a number 6?", Source: "N/n each", Status: worked.CommonPractice,
		Given: []string{"N = 6", "three tips"}, Printed: "2", Got: float64(must(hydraulics.SplitNumber(6, 3))(t))})
}

func TestDilution(t *testing.T) {
	worked.Check(t, worked.Case{Question: "12.5 % stock is drawn 1 : 9. How strong is what is sprayed?", Source: "stock · c/(c+q)", Status: worked.Identity,
		Given: []string{"stock 12.5 %", "1 : 9"}, Printed: "1.25 %", Got: 100 * float64(must(hydraulics.Dilution(0.125, gpm(0.4), gpm(3.6)))(t))})
}

func TestReel(t *testing.T) {
	r := hydraulics.Reel{Core: inch(8), Flange: inch(18), Width: inch(14), Clearance: inch(0.5)}
	f := must(r.Fit(inch(0.75), feet(150)))(t)
	given := []string{"8 in core, 18 in discs, 14 in wide, 1/2 in kept free", "hose 3/4 in outside"}
	for _, c := range []struct {
		question, source, printed string
		got                       float64
	}{
		{"How many turns lie side by side?", "⌊14/0.75⌋", "18", float64(f.Turns)},
		{"How many layers fit?", "⌊(18 − 8 − 1)/1.5⌋", "6", float64(f.Layers)},
		{"How much hose fits?", "π 18 · 6 (8 + 6 × 0.75) in", "353.4 ft", f.Capacity.In(units.Foot)},
		{"How many layers do 150 ft take?", "least n with π 18 n (8 + 0.75 n) ≥ 1800 in", "4", float64(f.Used)},
	} {
		worked.Check(t, worked.Case{Question: c.question, Source: c.source, Status: worked.Identity, Given: given, Printed: c.printed, Got: c.got})
	}
}

func TestLadder(t *testing.T) {
	rungs, err := hydraulics.Ladder(psi(2450), hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: psi(2900)}, hydraulics.Relief{Set: psi(3400)}, gpm(6.8), psi(4000))
	if err != nil {
		t.Fatal(err)
	}
	names := []string{"working", "unloader", "unloader, whole flow bypassed", "relief", "relief, whole flow", "weakest rating"}
	if len(rungs) != len(names) {
		t.Fatalf("rungs: %+v", rungs)
	}
	for i, r := range rungs {
		if r.Name != names[i] {
			t.Errorf("rung %d is %q, want %q", i, r.Name, names[i])
		}
	}
	given := []string{"working 2,450 psi", "unloader 2,900 psi", "relief 3,400 psi", "weakest part 4,000 psi"}
	worked.Check(t, worked.Case{Question: "How far is the relief above the unloader?", Source: "difference", Status: worked.Identity, Given: given, Printed: "500 psi", Got: rungs[3].Gap.In(units.PSI)})
	worked.Check(t, worked.Case{Question: "How far is that in per cent?", Source: "500/2900", Status: worked.Identity, Given: given, Printed: "17.24 %", Got: 100 * float64(rungs[3].Share)})
	small, err := hydraulics.Ladder(psi(2450), hydraulics.Unloader{}, hydraulics.Relief{Set: psi(3400), Accumulation: psi(340), Flow: gpm(3.4)}, gpm(6.8), psi(4000))
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{Question: "The relief is plated for half the pump: at what pressure does it pass the whole?", Source: "set + twice the accumulation", Status: worked.Identity,
		Given: []string{"relief 3,400 psi, 10 % at 3.4 gpm", "pump 6.8 gpm"}, Printed: "4,080 psi", Got: small[2].Pressure.In(units.PSI)})
	if last := small[3]; !(last.Gap < 0) {
		t.Errorf("a relief that passes the pump only above the weakest rating leaves a gap of %v", last.Gap)
	}
}
