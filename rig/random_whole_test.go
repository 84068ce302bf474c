package rig_test

import (
	"fmt"
	"reflect"
	"slices"
	"sort"
	"strings"
	"testing"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// wholeSpec draws a rig that may have everything a specification knows, and then
// leaves out what such rigs are sold without: heat, recovery, a chassis, a
// vehicle, current, tanks. A few fields are drawn from the whole width of what the
// table of fields accepts; they are kept where they contradict nothing.
func wholeSpec(g *property.G) *rig.Spec {
	s := randomSpec(g)
	some := func() bool { return g.Int(0, 2) > 0 }
	if some() {
		stable(g, s)
	}
	if some() {
		heated(g, s)
	}
	if some() {
		recovering(g, s)
	}
	if some() {
		powered(g, s)
		if g.Int(0, 3) == 0 {
			batteryFed(g, s)
		}
	}
	if some() {
		driven(g, s)
	}
	if some() {
		supplied(g, s)
	}
	if some() {
		crewed(g, s)
	}
	if some() {
		wintered(g, s)
	}
	if some() {
		weighed(g, s)
	}
	lessened(g, s)
	if g.Bool() {
		strewn(g, s, 6)
	}
	return s
}

func psi(x float64) units.Pressure         { return units.Pressure(x) * units.PSI }
func inches(x float64) units.Length        { return units.Length(x) * units.Inch }
func length(x float64) units.Length        { return units.Length(x) * units.Foot }
func gallons(x float64) units.Volume       { return units.Volume(x) * units.Gallon }
func gpm(x float64) units.VolumeFlow       { return units.VolumeFlow(x) * units.GallonPerMinute }
func cfm(x float64) units.VolumeFlow       { return units.VolumeFlow(x) * units.CubicFootPerMinute }
func waterInches(x float64) units.Pressure { return units.Pressure(x) * units.InchOfWater }
func skidded(id string) rig.Stock          { return rig.Stock{ID: id, Within: "skid"} }
func rpm(x float64) units.RotationalSpeed  { return units.RotationalSpeed(x) * units.RPM }

// recovering gives a rig one or two recovery units with their motors, dump pump and
// filters.
func recovering(g *property.G, s *rig.Spec) {
	for i := range g.Int(1, 2) {
		n := fmt.Sprint(i + 1)
		r := rig.Recovery{Stock: skidded("plant-" + n), Arrangement: property.OneOf(g, "parallel", "series"),
			Motor: rig.VacuumMotor{OpenFlow: cfm(g.Float(60, 300)), SealedLift: waterInches(g.Float(50, 150)), Curve: property.OneOf(g, "straight", "parabola"), OpenPower: units.Power(g.Float(900, 1500)), SealedPower: units.Power(g.Float(300, 900))},
			Hose:  rig.RecoveryHose{Bore: inches(g.Float(1.25, 3)), Length: length(g.Float(15, 150)), Wall: property.OneOf(g, "smooth", "corrugated")},
			Lift:  length(g.Float(0, 8)), Tool: rig.AirLoss{Loss: waterInches(g.Float(2, 15)), Flow: cfm(100)},
			Drum:      rig.Drum{Volume: gallons(g.LogFloat(3, 100)), MaximumVacuum: waterInches(g.Float(60, 200))},
			DumpPump:  rig.DumpPump{ShutOffHead: length(g.Float(10, 60)), RunOutFlow: gpm(g.Float(4, 60)), Curve: property.OneOf(g, "straight", "parabola")},
			Discharge: rig.Discharge{Lift: length(g.Float(-2, 8)), Bore: inches(g.Float(0.6, 2)), Length: length(g.Float(2, 60)), CheckValve: property.OneOf(g, "yes", "no")},
			Tank:      property.OneOf(g, "recovered", "fresh", ""), Dirt: units.Density(g.LogFloat(0.001, 0.2)) * units.PoundPerGallon, DoseLimit: units.Ratio(g.Float(1, 20)),
			Flammables: property.OneOf(g, "", "no", "yes"), Oil: property.OneOf(g, "", "no", "yes")}
		if g.Bool() {
			r.Motor.Points = []rig.AirPoint{{ID: "middle", Flow: r.Motor.OpenFlow * units.VolumeFlow(g.Float(0.3, 0.7)), Lift: r.Motor.SealedLift * units.Pressure(g.Float(0.3, 0.7))}}
			r.DumpPump.Points = []rig.HeadPoint{{ID: "middle", Flow: r.DumpPump.RunOutFlow * units.VolumeFlow(g.Float(0.3, 0.7)), Head: r.DumpPump.ShutOffHead * units.Length(g.Float(0.3, 0.7))}}
		}
		if g.Bool() {
			r.AirFilter = rig.VacuumFilter{Flow: cfm(100), Clean: waterInches(g.Float(0.5, 5)), Dirty: waterInches(g.Float(5, 30)), LinearShare: units.Ratio(g.Float(0, 1))}
		}
		if r.Discharge.CheckValve == "yes" {
			r.Discharge.Cracking = psi(g.Float(0, 1))
		}
		for k := range g.Int(0, 2) {
			r.Filters = append(r.Filters, rig.WaterFilter{ID: fmt.Sprintf("stage-%d", k+1), Flow: gpm(10), Clean: psi(g.Float(0.1, 2)), Dirty: psi(g.Float(2, 15)), Capacity: units.Mass(g.Float(1, 30)) * units.Pound, Captures: units.Ratio(g.Float(0.1, 1))})
		}
		for k := range g.Int(0, 2) {
			l := rig.Load{Stock: skidded(fmt.Sprintf("vacuum-%s-%d", n, k+1)), Load: parts.Load{Class: "brush-motor", Running: units.Power(g.Float(700, 1500))}, Starts: "by-hand", Source: "portable"}
			s.Loads = append(s.Loads, l)
			r.Loads = append(r.Loads, l.ID)
		}
		if g.Bool() {
			l := rig.Load{Stock: skidded("dump-" + n), Load: parts.Load{Class: "capacitor-start-motor", Running: units.Power(g.Float(200, 900)), Starting: units.Power(g.Float(900, 3000))}, Source: property.OneOf(g, "portable", "belt-1")}
			s.Loads = append(s.Loads, l)
			r.DumpPump.Loads = []string{l.ID}
		}
		if i == 0 && g.Bool() {
			r.Guns = []string{s.Lines[0].ID}
		}
		s.Recovery = append(s.Recovery, r)
	}
	if g.Bool() {
		s.Duty.RecoveredShare = units.Ratio(g.Float(0.3, 0.95))
		for i := range s.Recovery {
			s.Recovery[i].Evaporated = (1 - s.Duty.RecoveredShare) * units.Ratio(g.Float(0, 0.9))
		}
	}
}

// driven gives the engines governors, curves and fuel, the pumps geometry, pulleys
// and valves, and the lines reels.
func driven(g *property.G, s *rig.Spec) {
	for i := range s.Engines {
		e := &s.Engines[i]
		e.Burns, e.Correction, e.Aspiration = property.OneOf(g, "", "diesel", "gasoline", "biodiesel-b20"), property.OneOf(g, "", "plate", "j1349", "iso3046"), property.OneOf(g, "", "natural", "turbocharged")
		e.FuelTank = property.OneOf(g, "", "diesel")
		if g.Bool() {
			e.NetPower = e.GrossPower * units.Power(g.Float(0.8, 1))
		}
		if g.Bool() {
			e.NoLoadSpeed, e.Droop = rpm(g.Float(1800, 3900)), units.Ratio(g.Float(0.01, 0.12))
			if g.Bool() {
				e.Curve = []parts.PowerPoint{{ID: "low", Speed: e.NoLoadSpeed / 2, Power: e.GrossPower * units.Power(g.Float(0.3, 0.8))}, {ID: "high", Speed: e.NoLoadSpeed, Power: e.GrossPower * units.Power(g.Float(0.8, 1.1))}}
			}
		}
		if g.Bool() {
			e.FullLoadRate = units.FuelRate(float64(e.GrossPower/units.Horsepower)*g.Float(0.04, 0.12)) * units.GallonPerHour
			e.HalfLoadRate = e.FullLoadRate * units.FuelRate(g.Float(0.5, 0.8))
		}
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		p.Unloader.Type = property.OneOf(g, "", "pressure-regulating", "flow-actuated", "trapped-pressure")
		if g.Bool() {
			p.Unloader.Rise, p.Unloader.Unloaded = psi(g.Float(0, 500)), psi(g.Float(0, 300))
		}
		if p.Unloader.Type == "flow-actuated" {
			p.Unloader.Actuation = p.RatedFlow * units.VolumeFlow(g.Float(0.05, 0.6))
		}
		if g.Bool() {
			p.Relief.Accumulation = psi(g.Float(0, 500))
		}
		if g.Bool() {
			p.Speed = rpm(g.Float(900, 1800))
			p.Plungers, p.PlungerDiameter, p.Stroke, p.VolumetricEfficiency = g.Int(1, 5), inches(g.Float(0.5, 1.2)), inches(g.Float(0.4, 1.2)), units.Ratio(g.Float(0.8, 1))
		}
		if g.Bool() {
			p.EnginePulley, p.PumpPulley, p.BeltSlip = inches(g.Float(2, 6)), inches(g.Float(4, 12)), units.Ratio(g.Float(0, 0.05))
		}
		if g.Bool() {
			p.ThermalRelief = rig.ThermalRelief{Setting: units.Fahrenheit(g.Float(120, 180)), Flow: gpm(g.LogFloat(0.05, 3))}
		}
		if g.Bool() {
			p.HeadWater, p.HeadMetal = gallons(g.LogFloat(0.02, 1)), units.Mass(g.Float(5, 80))*units.Pound
		}
		if g.Bool() {
			p.Suction = rig.SuctionLine{Bore: inches(g.Float(0.75, 3)), Length: length(g.Float(1, 20)), Wall: property.OneOf(g, "", "stiff", "compliant"), Stabiliser: property.OneOf(g, "", "yes", "no"),
				MaximumTemperature: units.Fahrenheit(g.Float(100, 200)), Low: feet(g.Float(-3, 2)), High: feet(g.Float(2, 6)), Warmest: units.Fahrenheit(g.Float(90, 160)),
				Strainer: rig.Strainer{Loss: psi(g.Float(0.1, 3)), Opening: inches(g.Float(0.005, 0.04)), Valve: property.OneOf(g, "", "yes", "no")}}
			if g.Bool() {
				p.RequiredHead = length(g.Float(1, 20))
			}
		}
	}
	for i := range s.Lines {
		l := &s.Lines[i]
		if g.Bool() {
			l.Release = units.Duration(g.LogFloat(0.01, 1))
			l.Hose.WaveSpeed = units.Velocity(g.Float(400, 4000)) * units.FootPerSecond
		}
		if g.Bool() && l.Hose.OutsideDiameter != 0 {
			l.Reel = parts.Reel{Core: inches(g.Float(6, 12)), Flange: inches(g.Float(14, 30)), Width: inches(g.Float(8, 24))}
		}
	}
	for i := range s.Heaters {
		if r := &s.Heaters[i].Stack; r.Temperature.Given() && g.Bool() {
			r.Oxygen, r.CarbonDioxide = 0, units.Ratio(g.Float(0.06, 0.13))
		}
		s.Heaters[i].Fuel, s.Heaters[i].FuelTank, s.Heaters[i].FlowSwitch = property.OneOf(g, "", "oil", "diesel"), property.OneOf(g, "", "diesel"), property.OneOf(g, "", "yes", "no")
	}
	for i := range s.Sources {
		if s.Sources[i].Type == "portable" && g.Bool() {
			s.Sources[i].FullLoadRate = units.FuelRate(g.Float(0.3, 1.5)) * units.GallonPerHour
			s.Sources[i].FuelTank = "gasoline"
			s.FuelTanks = append(s.FuelTanks, rig.FuelTank{Stock: rig.Stock{ID: "gasoline", Within: "skid", X: feet(g.Float(4, 16)), Y: feet(0.5), Z: feet(3)}, FuelTank: parts.FuelTank{Fuel: "gasoline", Volume: gallons(g.Float(3, 15))}})
		}
	}
}

// supplied gives the tanks vents, outlets, a crossover and something that fills
// them; a pump without a tank is fed by a hydrant.
func supplied(g *property.G, s *rig.Spec) {
	for i := range s.Tanks {
		t := &s.Tanks[i]
		t.Vent, t.MaximumVacuum = inches(g.Float(0.3, 3)), waterInches(g.Float(0.5, 10))
		t.Stored, t.DumpValve, t.WayIn = units.Duration(g.Float(0, 5))*units.Day, property.OneOf(g, "", "locked", "free"), property.OneOf(g, "", "yes", "no")
		if g.Bool() {
			t.Dump = rig.DumpOutlet{Bore: inches(g.Float(0.5, 4)), Length: length(g.Float(0, 10))}
			t.Usable = t.Nominal * units.Volume(g.Float(0.8, 1))
		}
		if t.Height == 0 && t.Shape == "" {
			t.Height = length(g.Float(1, 4))
		}
	}
	if g.Bool() {
		s.Crossovers = []rig.Crossover{{ID: "joint", From: "fresh", To: "recovered", Bore: inches(g.LogFloat(0.3, 4)), Valve: property.OneOf(g, "", "open", "shut"), Length: length(g.Float(0, 10))}}
	}
	w := rig.WaterSupply{ID: "depot", Tank: "fresh", Static: psi(g.Float(20, 120)), Hose: rig.SupplyHose{Bore: inches(g.Float(0.5, 2.5)), Length: length(g.Float(10, 300))},
		Device: property.OneOf(g, "", "none", "double-check", "reduced-pressure"), Climb: length(g.Float(-5, 10)), AirGap: inches(g.Float(0.2, 6)), ByWall: property.OneOf(g, "", "yes", "no")}
	if g.Bool() {
		w.Residual, w.TestFlow = w.Static*units.Pressure(g.Float(0.2, 0.95)), gpm(g.Float(5, 500))
	}
	if g.Bool() {
		w.Meter = parts.RatedLoss{Loss: psi(g.Float(0.5, 10)), Flow: gpm(g.Float(5, 50))}
	}
	if w.Device != "none" && w.Device != "" {
		w.DeviceLoss = psi(g.Float(1, 12))
	}
	s.Supplies = []rig.WaterSupply{w}
	if k := len(s.Pumps) - 1; g.Int(0, 2) == 0 { // the last pump is fed straight
		p := &s.Pumps[k]
		p.Tank, p.Unloader.ReturnTo = "", "inlet"
		if p.Unloader.LoopVolume == 0 {
			p.Unloader.LoopVolume = gallons(1)
		}
		p.MinimumInletPressure, p.MaximumInletPressure = psi(g.Float(1, 40)), psi(g.Float(40, 120))
		w.ID, w.Tank, w.Pump, w.AirGap, w.Spout = "hydrant", "", p.ID, 0, 0
		s.Supplies = append(s.Supplies, w)
	}
}

// crewed gives a rig modes with guns, loads, valves, plugs and hose ends, and what
// is wanted of it.
func crewed(g *property.G, s *rig.Spec) {
	s.HoseEnds = []rig.HoseEnd{{ID: "return", Carries: property.OneOf(g, "", "clean", "recovered"), At: "recovered", Places: []string{"fresh"}}}
	for i := range g.Int(1, 3) {
		m := rig.Mode{ID: fmt.Sprintf("mode-%d", i+1), Title: "some work", Time: units.Duration(g.Float(0, 8)) * units.Hour}
		for _, l := range s.Lines {
			if g.Bool() {
				m.Guns = append(m.Guns, l.ID)
			}
		}
		for _, l := range s.Loads {
			if g.Bool() {
				m.Loads = append(m.Loads, l.ID)
			}
			for _, to := range l.May {
				if to != l.Source && g.Bool() && len(m.Plugs) == 0 {
					m.Plugs = append(m.Plugs, l.ID+">"+to)
				}
			}
		}
		if len(s.Chemicals) > 0 && g.Bool() {
			m.Sprays = []string{s.Chemicals[0].ID}
		}
		if len(s.Crossovers) > 0 && g.Bool() {
			m.Open = []string{s.Crossovers[0].ID}
		}
		if g.Bool() {
			m.Ends = []string{"return>fresh"}
		}
		s.Modes = append(s.Modes, m)
	}
	d := &s.Duty
	d.GunTemperature, d.NozzlePressureHigh = units.Fahrenheit(g.Float(60, 220)), d.NozzlePressureLow*units.Pressure(g.Float(1, 2))
	d.Steam, d.RunOff, d.Height = property.OneOf(g, "", "yes", "no"), property.OneOf(g, "", "contained", "sanitary", "ground", "storm-drain"), property.OneOf(g, "", "ground", "lift", "ladder")
	d.Surface, d.Area = property.OneOf(g, nil, []string{"soil"}, []string{"soil", "lead-paint"}), units.Area(g.LogFloat(10, 1e4))
	s.Site.Place, s.Site.SideSlope = property.OneOf(g, "", "open", "enclosed"), units.Angle(g.Float(0, 0.3))
	if len(s.Chemicals) > 0 {
		c := &s.Chemicals[0]
		c.WantedLow, c.WantedHigh = c.Strength*units.Ratio(g.Float(0.001, 0.3)), c.Strength*units.Ratio(g.Float(0.3, 1))
		c.Mist, c.Wets = property.OneOf(g, "", "yes", "no"), property.OneOf(g, nil, []string{"steel", "aluminium"})
	}
	s.Labour = []rig.Labour{{ID: "fit", Title: "fitting", Time: 10 * units.Hour}}
}

// wintered gives a rig a cold yard and antifreeze.
func wintered(g *property.G, s *rig.Spec) {
	s.Winter = rig.Winter{Coldest: units.Fahrenheit(g.Float(-30, 50)), RoadSpeed: units.Velocity(g.Float(20, 70)) * units.MilePerHour, Left: units.Ratio(g.Float(0.02, 1))}
	if g.Bool() {
		s.Winter.Antifreeze, s.Winter.Strength, s.Winter.Volume = property.OneOf(g, "", "propylene-glycol", "ethylene-glycol"), units.Ratio(g.Float(0.1, 0.59)), gallons(g.LogFloat(0.2, 30))
	}
	if g.Int(0, 3) == 0 {
		s.Winter.Parts = []rig.Trapped{{ID: "trap", Volume: gallons(g.LogFloat(0.05, 3))}}
	}
}

// weighed gives components masses, places and boxes of their own, the trailer a deck,
// and vehicle and fuel tank the rest of their plates.
func weighed(g *property.G, s *rig.Spec) {
	for _, st := range stocks(s) {
		if st.Within != "skid" || g.Bool() {
			continue
		}
		st.Within, st.Mass = "", units.Mass(g.LogFloat(5, 500))*units.Pound
		st.X, st.Y, st.Z = feet(g.Float(2, 18)), feet(g.Float(-2, 2)), feet(g.Float(2, 5))
		if g.Bool() {
			st.Box = rig.Box{Length: length(g.Float(0.3, 3)), Width: length(g.Float(0.3, 3)), Height: length(g.Float(0.3, 3)), Bottom: feet(g.Float(0, 3)), X: st.X, Y: st.Y}
		}
	}
	t := s.Trailer
	if g.Bool() {
		t.Coupler = feet(g.Float(-0.5, 0.5))
	}
	t.DeckLength, t.DeckWidth, t.DeckFront, t.DeckHeight = length(g.Float(12, 20)), length(g.Float(5, 8)), feet(g.Float(1, 5)), length(g.Float(1.5, 3))
	if g.Bool() {
		t.Suspension, t.SpringLoad, t.SpringTravel, t.AxleSpacing = "independent", units.Mass(g.Float(1500, 5000))*units.Pound, inches(g.Float(2, 6)), length(g.Float(2.5, 3.5))
		if t.CouplerHeight == 0 {
			t.CouplerHeight = length(g.Float(1, 2))
		}
		if g.Bool() {
			t.FreeHeight = t.CouplerHeight * units.Length(g.Float(0.9, 1.2))
		}
	}
	t.CouplerTrailerRating = units.Mass(g.Float(4000, 20000)) * units.Pound
	v := s.TowVehicle
	v.GrossRating, v.PayloadRating, v.Gear = units.Mass(g.Float(7000, 14000))*units.Pound, units.Mass(g.Float(1000, 4000))*units.Pound, units.Mass(g.Float(0, 900))*units.Pound
	v.ReceiverTrailerRating, v.BallRating = units.Mass(g.Float(4000, 20000))*units.Pound, units.Mass(g.Float(4000, 20000))*units.Pound
	for i := range s.TieDowns {
		d := &s.TieDowns[i]
		d.BreakingLoad, d.Friction, d.Contained = d.WorkingLoad*3, units.Ratio(g.Float(0, 0.6)), property.OneOf(g, "", "yes", "no")
		d.Height, d.Length, d.Width = length(g.Float(0.5, 4)), length(g.Float(1, 6)), length(g.Float(1, 6))
	}
	k := &s.FuelTanks[0]
	if g.Bool() {
		k.InsideLength, k.InsideWidth = length(g.Float(1, 3)), length(g.Float(1, 3))
		k.InsideHeight = units.Length(float64(k.Volume) / float64(k.InsideLength*k.InsideWidth))
		k.PickUpHeight, k.PickUpForward, k.PickUpLeft = k.InsideHeight*units.Length(g.Float(0, 0.3)), units.PositionAt(k.InsideLength*units.Length(g.Float(0, 1))), units.PositionAt(k.InsideWidth*units.Length(g.Float(0, 1)))
	}
	if g.Bool() {
		s.Items = append(s.Items, rig.Item{Stock: rig.Stock{ID: "locker", Within: "skid", Box: rig.Box{Length: length(2), Width: length(1), X: feet(8), Y: feet(1)}}})
		s.Tanks[0].Within, s.Tanks[0].Mass = "skid", 0
	}
	for i := range s.Zones {
		z := &s.Zones[i]
		if len(s.Items) > 1 && g.Bool() {
			z.Against = []string{"items[locker]"}
		}
		z.Owner = property.OneOf(g, "", "items[skid]")
		if g.Bool() {
			z.Bottom, z.Top = feet(g.Float(0, 2)), feet(g.Float(2, 8))
		}
	}
	for i := range s.Loads {
		l := &s.Loads[i]
		if l.Heater != "" || g.Bool() {
			continue
		}
		switch l.Voltage = 115 * units.Volt; g.Pick(3) {
		case 0:
			l.ShaftPower, l.CodeLetter = l.Running*units.Power(g.Float(0.5, 0.9)), property.OneOf(g, "A", "G", "L")
		case 1:
			l.LockedRotor = units.Current(g.Float(1, 8) * float64(l.Running) / 115)
		case 2:
			l.MeasuredStart = units.Current(g.Float(1, 8) * float64(l.Running) / 115)
		}
		l.Starting = 0
	}
}

// batteryFed adds an inverter behind the battery, an order of starts and a cord that
// stays with its source.
func batteryFed(g *property.G, s *rig.Spec) {
	if len(s.Batteries) == 0 {
		return
	}
	s.Sources = append(s.Sources, rig.Source{Stock: skidded("inverter"), Type: "inverter", Battery: s.Batteries[0].ID, Generator: parts.Generator{Running: units.Power(g.Float(200, 2000)), IdlePower: units.Power(g.Float(1, 30)), Noise: g.Int(40, 90)}})
	s.Loads = append(s.Loads, rig.Load{Stock: skidded("lamp"), Load: parts.Load{Class: "resistance", Running: units.Power(g.Float(20, 300))}, Starts: "by-hand", Source: "inverter"},
		rig.Load{Stock: skidded("charger"), Load: parts.Load{Class: "charger", Running: units.Power(g.Float(20, 300))}, Starts: "by-hand", Source: "inverter", After: []string{"lamp"}})
	s.Cords = append(s.Cords, rig.Cord{Stock: skidded("lead"), Loads: []string{"lamp", "charger"}, Source: "inverter", Length: length(g.LogFloat(2, 100)), Gauge: "14 AWG"})
}

// stocks lists what stands on the deck, by its lists.
func stocks(s *rig.Spec) []*rig.Stock {
	var out []*rig.Stock
	v := reflect.ValueOf(s).Elem()
	for i := range v.NumField() {
		list := v.Field(i)
		if list.Kind() != reflect.Slice || list.Type().Elem().Kind() != reflect.Struct {
			continue
		}
		for k := range list.Len() {
			if st := list.Index(k).FieldByName("Stock"); st.IsValid() {
				out = append(out, st.Addr().Interface().(*rig.Stock))
			}
		}
	}
	return out
}

// lessened leaves out what such rigs are sold without.
func lessened(g *property.G, s *rig.Spec) {
	if g.Int(0, 3) == 0 { // cold
		s.Heaters = nil
		for i := range s.Loads {
			s.Loads[i].Heater = ""
		}
	}
	if g.Int(0, 3) == 0 { // nothing is picked up
		s.Recovery, s.Duty.RecoveredShare = nil, 0
	}
	if g.Int(0, 5) == 0 { // no current
		s.Sources, s.Loads, s.Outlets, s.Cords, s.Batteries, s.DirectLoads = nil, nil, nil, nil, nil, nil
		for i := range s.Modes {
			s.Modes[i].Loads, s.Modes[i].Plugs = nil, nil
		}
		for i := range s.Recovery {
			s.Recovery[i].Loads, s.Recovery[i].DumpPump.Loads = nil, nil
		}
	}
	switch g.Int(0, 7) {
	case 0: // a skid in a van, said or not
		if s.Trailer, s.TieDowns = nil, nil; g.Bool() {
			s.TowVehicle = nil
		}
	case 1:
		s.TowVehicle = nil
	case 2: // fed by a hydrant, without tanks
		s.Tanks, s.Crossovers, s.Fills, s.TieDowns, s.HoseEnds, s.Supplies = nil, nil, nil, nil, nil, nil
		for i := range s.Modes {
			s.Modes[i].Open, s.Modes[i].Ends = nil, nil
		}
		for i := range s.Recovery {
			s.Recovery[i].Tank = ""
		}
		for i := range s.Pumps {
			p := &s.Pumps[i]
			p.Tank, p.Unloader.ReturnTo = "", "inlet"
			if p.Unloader.LoopVolume == 0 {
				p.Unloader.LoopVolume = gallons(1)
			}
			if g.Bool() {
				s.Supplies = append(s.Supplies, rig.WaterSupply{ID: "main-" + p.ID, Pump: p.ID, Static: psi(g.Float(20, 100)), Hose: rig.SupplyHose{Bore: inches(g.Float(0.5, 2)), Length: length(50)}, Device: "double-check"})
			}
		}
	case 3: // whatever a specification may lack without a word
		s.Site.Elevation, s.Site.Water, s.Site.Conditions = units.Elevation{}, units.Temperature{}, nil
	}
}

// strewn sets a few fields, given or not, to anything their table accepts, and keeps
// what New takes.
func strewn(g *property.G, s *rig.Spec, most int) {
	table, err := fields.Of(reflect.TypeFor[rig.Spec]())
	if err != nil {
		panic(err)
	}
	var at []fields.Visit
	table.Walk(s, func(v *fields.Visit) bool {
		if v.Field.Kind != 0 || len(v.Field.Choices) > 0 || v.Field.Role == fields.Count {
			at = append(at, v.Keep())
		}
		return true
	})
	for range g.Int(1, most) {
		v := at[g.Pick(len(at))]
		next := s.Clone()
		if next.Apply(strew(g, v.Field, rig.Path(v.Path()))) != nil {
			continue
		}
		if _, err := rig.New(next, nil); err == nil {
			g.Note("strewn: %s", v.Path())
			*s = *next
		}
	}
}

// strew makes a change of a field to anything in its range, most of it near the low
// end as ranges are wide.
func strew(g *property.G, f *fields.Field, p rig.Path) rig.Change {
	switch {
	case len(f.Choices) > 0:
		return rig.Set(p, property.OneOf(g, f.Choices...))
	case f.Role == fields.Count:
		return rig.Set(p, fmt.Sprint(property.OneOf(g, 1, 2, 3, 4, 60)))
	}
	low, high, _, _ := f.Range()
	u := g.Float(0, 1)
	q, err := units.NewQuantity(f.Kind, low+(high-low)*u*u*u)
	if err != nil {
		return rig.Set(p, "")
	}
	return rig.Assign(p, q)
}

// Every field of a specification comes up in the rigs that are drawn, and New takes
// at least five of six.
func TestWholeRigs_coverEveryField(t *testing.T) {
	table := specFields(t)
	given := map[string]bool{}
	cases, refused := 0, 0
	var last error
	draw := func(g *property.G) error {
		cases++
		s := wholeSpec(g)
		if _, err := rig.New(s, nil); err != nil {
			refused, last = refused+1, err
			return nil
		}
		table.Walk(s, func(v *fields.Visit) bool {
			if !v.Value.IsZero() {
				given[v.Field.Pattern] = true
			}
			return true
		})
		return nil
	}
	t.Run("drawn", func(t *testing.T) { property.Check(t, draw) })
	// What chance left out is asked for, on rigs of another chance.
	t.Run("asked for", func(t *testing.T) {
		property.Check(t, func(g *property.G) error {
			s := wholeSpec(g)
			table.Walk(s, func(v *fields.Visit) bool {
				f := v.Field
				if given[f.Pattern] || unread(f.Pattern) || (f.Kind == 0 && len(f.Choices) == 0 && f.Role != fields.Count) {
					return true
				}
				next := s.Clone()
				if next.Apply(strew(g, f, rig.Path(v.Path()))) != nil {
					return true
				}
				if _, err := rig.New(next, nil); err == nil {
					given[f.Pattern] = true
				}
				return true
			})
			return nil
		})
	})
	if refused > cases/6 {
		t.Errorf("of %d rigs %d are refused, such as: %v", cases, refused, last)
	}
	if cases < 200 {
		return
	}
	var never []string
	for _, f := range table.Rows() {
		if f.Role != fields.Group && !given[f.Pattern] && !unread(f.Pattern) {
			never = append(never, f.Pattern)
		}
	}
	sort.Strings(never)
	if len(never) > 0 {
		t.Errorf("never given: %s", strings.Join(never, " "))
	}
}

// unread are the fields that these rigs leave out: those that fill others from a shelf,
// words and prices that no number comes from, and a box or a carrier for the trailer,
// which carries boxes and is none.
func unread(pattern string) bool {
	if strings.HasPrefix(pattern, "trailer.box.") || pattern == "trailer.within" {
		return true
	}
	name := pattern[strings.LastIndex(pattern, ".")+1:]
	return slices.Contains([]string{"part", "note", "count", "cost", "price", "lead_time", "title", "fuel_price", "basis", "tolerance", "pulley_stock"}, name)
}
