package statics_test

import (
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// The four invented rigs that the project's examples share, with the masses and
// positions of their weights table. Each comes back as trailer, fixed masses and
// the liquids: fresh water, recovered water, gasoline, diesel. Water varies from
// empty to full, fuel from what is left at home to what is there on the way out.
type demoRig struct {
	trailer statics.Trailer
	fixed   []statics.Mass
	liquids []statics.Varying
}

const (
	demoFresh = iota
	demoRecovered
	demoGasoline
	demoDiesel
)

var demoWater = units.Density(8.34) * units.PoundPerGallon

func demoTanks(fresh, recovered float64) [4]statics.Tank {
	return [4]statics.Tank{
		{Name: "fresh", Nominal: 240 * units.Gallon, Density: demoWater, X: feet(fresh)},
		{Name: "recovered", Nominal: 160 * units.Gallon, Density: demoWater, X: feet(recovered)},
		{Name: "gasoline", Nominal: 14 * units.Gallon, Density: 6.1 * units.PoundPerGallon, X: feet(7.0)},
		{Name: "diesel", Nominal: 30 * units.Gallon, Density: 7.1 * units.PoundPerGallon, X: feet(8.4)},
	}
}

func demo(name string) demoRig {
	reels, fresh, recovered, portable := 270.0, 11.0, 12.4, true
	washers := []statics.Mass{lb("washer", 860, 8.2)}
	switch name {
	case "A":
		reels = 150
		washers = []statics.Mass{lb("washer", 690, 8.2)}
	case "B":
	case "C":
		washers = []statics.Mass{lb("washer-front", 540, 7.4), lb("washer-rear", 540, 9.4)}
	case "D":
		washers = []statics.Mass{lb("washer", 860, 7.9)}
		fresh, recovered, portable = 10.0, 15.6, false
	case "D moved":
		washers = []statics.Mass{lb("washer", 860, 7.9)}
		fresh, recovered, portable = 10.8, 12.2, false
	default:
		panic("no such demo rig: " + name)
	}
	r := demoRig{
		trailer: statics.Trailer{AxleGroup: feet(12.6), Axles: 2},
		fixed: append(washers,
			lb("trailer", 2500, 11.6), lb("plant", 330, 15.4), lb("tools", 240, 6.0), lb("reels", reels, 17.0),
			lb("fresh-shell", 150, fresh), lb("recovered-shell", 120, recovered)),
	}
	if portable {
		r.fixed = append(r.fixed, lb("portable", 155, 6.4))
	}
	home := [4]units.Ratio{0, 0, 6.0 / 14, 22.0 / 30}
	for i, tank := range demoTanks(fresh, recovered) {
		v, err := tank.Range(home[i], 1)
		if err != nil {
			panic(err)
		}
		r.liquids = append(r.liquids, v)
	}
	return r
}

// at lists every mass with the tanks at the given gallons.
func (r demoRig) at(gallons ...float64) []statics.Mass {
	all := append([]statics.Mass(nil), r.fixed...)
	for i, tank := range demoTanks(r.liquids[demoFresh].X.Length().In(units.Foot), r.liquids[demoRecovered].X.Length().In(units.Foot)) {
		m, err := tank.Load(units.Ratio(gallons[i] / tank.Nominal.In(units.Gallon)))
		if err != nil {
			panic(err)
		}
		all = append(all, m)
	}
	return all
}
