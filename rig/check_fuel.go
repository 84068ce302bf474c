package rig

import (
	"strings"

	"example.com/washrig/units"
)

// fuelChecks judge run time, cold fuel and what the plate promises.
func fuelChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mTankDay, root: "fuel", severity: Fix, against: mTankUsable, by: "fuel that reaches the pick-up of a full tank", also: []*Metric{mTankUsable},
			doc: CodeDoc{Code: "fuel-short", Bad: Higher, Title: "the day burns more fuel than the tank gives",
				Meaning: "The modes of the day, each for its hours, draw more fuel than reaches the pick-up of a full tank.", Defers: "whoever plans the day"}},
		{metric: mCloud, root: "cold fuel",
			doc: CodeDoc{Code: "fuel-clouds", Bad: Lower, Title: "fuel colder than its cloud point",
				Meaning: "Wax shows in the fuel in the cold hour and plugs filters and burner nozzles. Limits are typical of the season's ordinary supply.",
				Limit:   Limit{Fix: (0 * units.KelvinDelta).Quantity(), Source: "typical cloud point of the fuel"}, Defers: "fuel supplier"}},
		{metric: mGel, root: "cold fuel",
			doc: CodeDoc{Code: "fuel-gels", Bad: Lower, Title: "fuel no longer flows in the cold hour",
				Meaning: "The fuel gels, or a liquefied gas gives no vapour, at the air of the hour: engine or burner stops.",
				Limit:   Limit{Stop: (0 * units.KelvinDelta).Quantity(), Source: "typical gel or boiling point of the fuel"}, Defers: "fuel supplier"}},
		{metric: mEngineHas, root: "engine", severity: Note, against: mEngineJ1349, by: "power by SAE J1349 at the site", also: []*Metric{mEngineJ1349},
			doc: CodeDoc{Code: "plate-generous", Bad: Higher, Title: "the plate takes off less than SAE J1349",
				Meaning: "At the site the plate's derating leaves the engine more power than SAE J1349 does; the margin of the engine is smaller than it looks.", Defers: "engine maker"}},
		{metric: mLoadedSpeed, root: "engine", severity: Fix, against: mRatedSpeed, by: "speed at which the governor is wide open", also: []*Metric{mRatedSpeed},
			doc: CodeDoc{Code: "engine-lugs", Bad: Lower, Title: "the engine is pulled below its governed speed",
				Meaning: "With everything running the engine settles below the speed at which its governor is wide open: pump flow and generator frequency fall with it.", Defers: "engine maker"}},
	}
}

// mWrongFuel names a consumer whose fuel is not what its tank holds.
var mWrongFuel = &Metric{Path: "fuel_tanks[].fuel", Label: "fuel in the tank", Formula: "as given", Source: "specification"}

// wrongFuel reports consumers that are made for another fuel than their tank
// holds.
type wrongFuel struct{}

// Codes returns the one code of the check.
func (wrongFuel) Codes() []CodeDoc {
	return []CodeDoc{{Code: "wrong-fuel", Title: "a consumer is made for another fuel than its tank holds", Plate: true, Metric: mWrongFuel.Path,
		Meaning: "An engine or burner draws from a tank of another kind of fuel: gasoline in a burner is an explosion, diesel ruins a gasoline engine.", Defers: "makers of engine and burner; fire authority"}}
}

// Check compares what each consumer burns with what its tank holds.
func (wrongFuel) Check(v *View, report func(Finding)) {
	s := v.model.spec
	holds := map[string]string{}
	for i := range s.FuelTanks {
		holds[s.FuelTanks[i].ID] = s.FuelTanks[i].Fuel
	}
	check := func(consumer Path, burns, tank string) {
		switch {
		case tank == "" || holds[tank] == "":
			return
		case burns == "":
			field := consumer + ".burns"
			if strings.HasPrefix(string(consumer), "heaters[") {
				field = consumer + ".fuel"
			}
			report(Finding{Code: "wrong-fuel", Severity: CannotJudge, Reading: Reading{Metric: mWrongFuel, Part: tank, State: State{set: v.model.axes}}, Margin: -1,
				Source: "nobody said what " + string(consumer) + " burns; the tank holds " + holds[tank], Root: "wrong fuel " + tank, Leans: []Path{field}})
			return
		}
		if fuelFamily(burns) != fuelFamily(holds[tank]) {
			report(Finding{Code: "wrong-fuel", Severity: Stop, Reading: Reading{Metric: mWrongFuel, Part: tank, State: State{set: v.model.axes}}, Margin: -1,
				Source: string(consumer) + " burns " + burns + ", the tank holds " + holds[tank], Root: "wrong fuel " + tank})
		}
	}
	for i := range s.Engines {
		check(Path("engines["+s.Engines[i].ID+"]"), s.Engines[i].Burns, s.Engines[i].FuelTank)
	}
	for i := range s.Heaters {
		check(Path("heaters["+s.Heaters[i].ID+"]"), s.Heaters[i].Fuel, s.Heaters[i].FuelTank)
	}
}
