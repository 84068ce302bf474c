package vacuum_test

import (
	"strconv"
	"testing"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// The shop's questions about one invented plant (plant and dump of helpers_test.go):
// motors of 110 in of water sealed and 120 cfm open joined by a straight line, a tool
// of 8 in at 100 cfm, 40 ft of smooth 2 in hose that climbs 3 ft, a filter of 4 in at
// 200 cfm, half of it laminar; a dump pump of 20 ft and 14 gpm on a parabola, 3 ft up
// through 15 ft of 1 in hose, a check valve of 0.2 psi, a bag and a cartridge.
//
// The answers come from testdata/reference.py, which integrates the momentum
// equation with SciPy 1.10.1 and takes friction, two-phase gradient and void fraction
// from fluids 1.0.22; six digits are printed, and half of the last is the tolerance.

const shopSource = "SciPy 1.10.1 and fluids 1.0.22, testdata/reference.py"

func answers(t *testing.T) func(name string) (printed string) {
	t.Helper()
	rows := table(t, "shop_reference.csv")
	return func(name string) string {
		t.Helper()
		for _, r := range rows {
			if r["answer"] == name {
				return r["value"] + " " + r["unit"]
			}
		}
		t.Fatalf("there is no answer %q", name)
		return ""
	}
}

// carried is the pick-up while the air still carries.
func carried(t *testing.T, p vacuum.Plant) vacuum.PickUp {
	t.Helper()
	v := must(vacuum.CarryVelocity(p.Air, p.Liquid))(t)
	return must(p.PickUp(v))(t)
}

func given(n int, more ...string) []string {
	return append([]string{strconv.Itoa(n) + " of the motors", "the invented plant"}, more...)
}

func TestShop_itPuddles(t *testing.T) {
	answer := answers(t)
	ask := func(question, name string, u vacuum.PickUp, g []string) {
		t.Helper()
		worked.Check(t, worked.Case{Question: question, Source: shopSource, Status: worked.Computed, Given: g, Printed: answer(name + ", pick-up"), Got: inGPM(u.Rate)})
		worked.Check(t, worked.Case{Question: question + " And the vacuum in the tank?", Source: shopSource, Status: worked.Computed, Given: g, Printed: answer(name + ", tank"), Got: inInches(u.Tank)})
	}
	one, two, three := carried(t, plant(t, 1)), carried(t, plant(t, 2)), carried(t, plant(t, 3))
	const question = "One gun on 4.4 gpm, 72 % comes back, and it puddles: will the second motor help?"
	ask(question, "one motor", one, given(1))
	ask(question, "two motors", two, given(2))
	ask(question, "three motors", three, given(3))

	// 4.4 gpm × 72 % = 3.17 gpm: one motor leaves 0.08 gpm, two leave nothing.
	left := must(vacuum.Puddle(gpm(4.4), 0.72, one.Rate))(t)
	worked.Check(t, worked.Case{Question: "How much stays on the pad?", Source: "4.4 × 0.72 − 3.085", Status: worked.Identity, Given: given(1), Printed: "0.083 gpm", Got: inGPM(left)})
	if left := must(vacuum.Puddle(gpm(4.4), 0.72, two.Rate))(t); left != 0 {
		t.Errorf("two motors leave %v", left)
	}
	// The tempting answer: two motors pick up twice as much.
	if two.Rate >= 1.75*one.Rate || three.Rate >= 1.2*two.Rate {
		t.Errorf("pick-up %v, %v, %v with one, two, three motors", one.Rate, two.Rate, three.Rate)
	}
	n, u, err := plant(t, 1).MotorsFor(gpm(3.17), fpm(2879), 4)
	if err != nil || n != 2 || u.Rate < two.Rate*0.999 {
		t.Errorf("%d motors, %v, %v", n, u.Rate, err)
	}
	if n, _, _ = plant(t, 1).MotorsFor(gpm(12), fpm(2879), 4); n != 0 {
		t.Errorf("%d motors for 12 gpm", n)
	}
}

func TestShop_widerHose(t *testing.T) {
	answer := answers(t)
	wide := func(n int) vacuum.Plant {
		p := plant(t, n)
		p.Path[1] = vacuum.Hose{Bore: inches(2.5), Length: feet(40), Rise: feet(3)}
		return p
	}
	const question = "Would a 2½ in hose pick up more than the 2 in?"
	for i, name := range []string{"one motor, 2.5 in", "two motors, 2.5 in"} {
		n := i + 1
		u := carried(t, wide(n))
		worked.Check(t, worked.Case{Question: question, Source: shopSource, Status: worked.Computed, Given: given(n), Printed: answer(name + ", pick-up"), Got: inGPM(u.Rate)})
		// The tempting answer is that it must: less is lost in it. But its air is
		// slower, and slow air lifts no water.
		if u.Rate >= carried(t, plant(t, n)).Rate {
			t.Errorf("%d motors: the wide hose picks up %v", n, u.Rate)
		}
	}
}

func TestShop_longerHoseAndHighCountry(t *testing.T) {
	answer := answers(t)
	p := plant(t, 2)
	p.Path[1] = vacuum.Hose{Bore: inches(2), Length: feet(80), Rise: feet(3)}
	worked.Check(t, worked.Case{Question: "He wants 80 ft of recovery hose: what is left?", Source: shopSource, Status: worked.Computed, Given: given(2),
		Printed: answer("two motors, 80 ft, pick-up"), Got: inGPM(carried(t, p).Rate)})
	for i, name := range []string{"one motor, a mile up", "two motors, a mile up"} {
		n := i + 1
		p := plant(t, n)
		p.Air = mile
		u := carried(t, p)
		worked.Check(t, worked.Case{Question: "And the same plant at 5,200 ft on a hot afternoon?", Source: shopSource, Status: worked.Computed, Given: given(n, "83.54 kPa, 95 °F"),
			Printed: answer(name + ", pick-up"), Got: inGPM(u.Rate),
			Tolerance: 1e-3, Reason: "with one motor the water alone would flow at Re = 2,800, where the library is turbulent and the bridge between laminar and turbulent is lower"})
	}
	v := must(vacuum.CarryVelocity(mile, coldWater(t)))(t)
	worked.Check(t, worked.Case{Question: "How fast must the air be up there?", Source: shopSource, Status: worked.Computed, Given: []string{"83.54 kPa, 95 °F"},
		Printed: answer("one motor, a mile up, speed"), Got: v.In(units.FootPerMinute)})
}

func TestShop_howHigh(t *testing.T) {
	// 110 in of conventional water are 110/12 ft, and water at 60 °F is 0.999016 as
	// heavy: 9.1757 ft.
	worked.Check(t, worked.Case{Question: "How high can the motor lift, with the tool under water?", Source: "sealed lift over density", Status: worked.Identity,
		Given: []string{"110 in of water sealed", "water at 60 °F"}, Printed: "9.1757 ft", Got: carried(t, plant(t, 1)).Column.In(units.Foot)})
	worked.Check(t, worked.Case{Question: "80 in of water in the drum: how many feet does the dump pump see?", Source: "80/12; a unit of water is 1000 kg/m³ by convention", Status: worked.Identity,
		Given: []string{"80 in of water"}, Printed: "6.67 ft", Got: must(dump(t).At(inH2O(80)))(t).Vacuum.In(units.Foot),
		Tolerance: 0.01, Reason: "water at 60 °F is 0.1 % lighter than the conventional inch of water"})
}

func TestShop_drumFills(t *testing.T) {
	answer := answers(t)
	d := dump(t)
	new, old := d, d
	old.Loaded = []units.Ratio{1, 1}
	for _, c := range []struct {
		name string
		d    vacuum.Dump
		vac  float64
	}{{"dump at 0 in, filters new", new, 0}, {"dump at 40 in, filters new", new, 40}, {"dump at 60 in, filters new", new, 60},
		{"dump at 0 in, filters at change-out", old, 0}, {"dump at 40 in, filters at change-out", old, 40}, {"dump at 60 in, filters at change-out", old, 60}} {
		worked.Check(t, worked.Case{Question: "With the second motor on the drum fills: how much does the dump pump still move?", Source: shopSource, Status: worked.Computed,
			Given: []string{c.name}, Printed: answer(c.name), Got: inGPM(must(c.d.At(inH2O(c.vac)))(t).Flow)})
	}
	worked.Text(t, worked.TextCase{Question: "Why does it move less with the second motor?", Source: "heads of the dump pump", Status: worked.Identity,
		Given: []string{"40 in of water with one, 60 in with two"}, Printed: "deeper vacuum in the tank", Got: must(vacuum.WhyLess(new, inH2O(60), new, inH2O(40)))(t).String()})
	worked.Text(t, worked.TextCase{Question: "Why does it move less than last month?", Source: "heads of the dump pump", Status: worked.Identity,
		Given: []string{"filters at change-out, 40 in of water"}, Printed: "dirtier filters", Got: must(vacuum.WhyLess(old, inH2O(40), new, inH2O(40)))(t).String()})

	// 7 gpm come in and 5.218 go out of a drum that holds 20 gal: 20/1.782 = 11.2 min.
	l := must(vacuum.Fill(gallons(20), 0, gpm(7), must(old.At(inH2O(60)))(t).Flow))(t)
	worked.Check(t, worked.Case{Question: "When does the float shut the vacuum off?", Source: "20 gal/(7 − 5.218) gpm", Status: worked.Identity,
		Given: []string{"20 gal to the float", "7 gpm in", "filters at change-out, 60 in of water"}, Printed: "11.2 min", Got: l.Trip.In(units.Minute)})

	// At which loss must the filters be changed, if 7 gpm have to go out at 60 in? The
	// head of 20 (1 − 0.25) = 15 ft less 3 ft, less 5.005 ft of vacuum, less 0.462 ft of
	// valve, less the hose. In 1 in, 7 gpm run at 2.8595 ft/s, Re 19,720, f 0.02602: (0.02602 ×
	// 180 + 4) × 0.12708 ft = 1.1036 ft. 5.430 ft are left: 2.352 psi.
	worked.Check(t, worked.Case{Question: "At which pressure across the filters do I change them?", Source: "sum of heads, by hand; friction of Colebrook", Status: worked.Identity,
		Given: []string{"7 gpm wanted", "60 in of water in the drum"}, Printed: "2.352 psi", Got: must(d.FilterAllowance(gpm(7), inH2O(60)))(t).In(units.PSI),
		Tolerance: 0.002, Reason: "the hand sum carries four digits through five heads"})
}
