package demo_test

import (
	"testing"

	"example.com/washrig/rig"
)

// What the day burns: two guns 1.5 h, one gun 4.5 h, triggers pulled 55 % of
// the time.
func TestVerdict_fuelOfB(t *testing.T) {
	b := load(t).reports["B"]
	// Burner: 3.54 gph for two guns and 55 % of it for one, times the trigger
	// share: 1.95 and 1.07 gph, 2.92 and 4.82 gal, 7.7 of the usable 27 gal.
	near(t, "diesel, two guns", read(t, b, "fuel_tanks[diesel].rate", "mode=two-guns", "gph"), 0.55*3.54, properties)
	near(t, "diesel, one gun", read(t, b, "fuel_tanks[diesel].rate", "mode=one-gun", "gph"), 0.55*0.55*3.54, properties)
	near(t, "diesel of the day", read(t, b, "fuel_tanks[diesel].day", "any", "gal"), 7.7, properties)
	near(t, "diesel that reaches the pick-up", read(t, b, "fuel_tanks[diesel].usable_fuel", "any", "gal"), 0.9*30, algebra)
	verdict(t, b, "fuel-short", "diesel", rig.Pass)

	// Engine: 12.6 hp with the triggers pulled, 14.8 hp released, 13.6 hp on the
	// average, 59 % of 23 hp. A gasoline engine of the class takes 0.55 lb/(hp·h)
	// at full load and 30 % of that without load (common practice):
	// 0.55·23·(0.3 + 0.7·0.59) = 9.0 lb/h, 1.5 gph of E10 at 6.2 lb/gal.
	near(t, "engine, two guns", read(t, b, "engines[washer].fuel_rate", "mode=two-guns", "gph"), 1.5, properties)

	// The day burns more gasoline than a full tank gives: 2.06 gph for 1.5 h and
	// 2.13 gph for 4.5 h are 12.7 gal of 14·0.9 = 12.6. The verdict leans on the
	// consumption of the class.
	near(t, "gasoline of the day", read(t, b, "fuel_tanks[gasoline].day", "any", "gal"), 2.06*1.5+2.13*4.5, properties)
	verdict(t, b, "fuel-short", "gasoline", rig.Fix)
	f := finding(b, "fuel-short", "gasoline")
	leans := false
	for _, p := range f.Leans {
		leans = leans || p == "engines[washer].full_load_rate"
	}
	if !leans || !f.Turns.Given() {
		t.Errorf("the verdict does not lean on the assumed consumption: %v, turns at %v", f.Leans, f.Turns)
	}

	// 7.7 gal of diesel at 10.21 kg/gal (40 CFR 98) are 79 kg of carbon dioxide.
	near(t, "carbon dioxide of the diesel", read(t, b, "fuel_tanks[diesel].carbon_dioxide", "any", "kg"), 7.7*10.21, properties)
}

// The engine by other rules than its plate, and the pressure it carries.
func TestVerdict_engineRules(t *testing.T) {
	b := load(t).reports["B"]
	// SAE J1349: dry pressure 836.8 mb, 95 °F: 1.18·(990/836.8)·√(308.15/298.15) − 0.18
	// = 1.239, of 20.7 hp 16.7 hp.
	near(t, "power by SAE J1349", read(t, b, "engines[washer].available_j1349", "site=afternoon", "hp"), 16.7, algebra)
	near(t, "power by rule of thumb", read(t, b, "engines[washer].available_by_rule", "site=afternoon", "hp"), 16.63, algebra)
	verdict(t, b, "plate-generous", "washer", rig.Pass)
	// 2,900·(16.63 − 1.16)/13.62 = 3,294 psi.
	near(t, "largest pressure", read(t, b, "pumps[main].largest_pressure", "site=afternoon", "psi"), 3294, algebra)
	// D has 3,600 W on the belt: 2,900·(16.63 − 6.45)/13.62 = 2,168 psi.
	d := load(t).reports["D"]
	near(t, "largest pressure of D", read(t, d, "pumps[main].largest_pressure", "site=afternoon", "psi"), 2168, algebra)
}
