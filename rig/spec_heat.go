package rig

import (
	"example.com/washrig/units"
)

// A FlueReading is what was measured in the stack of a burner.
type FlueReading struct {
	Temperature   units.Temperature `json:"temperature" range:"100 °F..1200 °F" doc:"of the flue gas"`
	Air           units.Temperature `json:"air" range:"-60 °F..140 °F" doc:"of the air the burner draws"`
	Oxygen        units.Ratio       `json:"oxygen" range:"0.1 %..20 %" doc:"of the dry flue gas, by volume"`
	CarbonDioxide units.Ratio       `json:"carbon_dioxide" range:"1 %..20 %" doc:"of the dry flue gas, by volume; instead of the oxygen"`
}

// A ThermalRelief lets hot water out of the bypass while fresh water takes its
// place.
type ThermalRelief struct {
	Setting units.Temperature `json:"setting" range:"80 °F..212 °F" doc:"temperature at which it opens"`
	Flow    units.VolumeFlow  `json:"flow" range:"0.001 gpm..100 gpm" doc:"what it passes when open"`
}

// A Winter is the cold a rig stands and drives in, and its antifreeze.
type Winter struct {
	Coldest    units.Temperature `json:"coldest" range:"-80 °F..100 °F" doc:"coldest air while the rig stands or is towed; nothing: freezing is not looked at"`
	RoadSpeed  units.Velocity    `json:"road_speed" range:"5 mph..85 mph" doc:"speed on the road, for the wind on the parts; nothing: the road is not looked at"`
	Antifreeze string            `json:"antifreeze" choice:"propylene-glycol|ethylene-glycol" doc:"what the antifreeze is"`
	Strength   units.Ratio       `json:"strength" range:"1 %..60 %" doc:"share of glycol in the antifreeze as it is poured in, by volume"`
	Volume     units.Volume      `json:"volume" range:"0.01 gal..500 gal" doc:"antifreeze pushed through"`
	Left       units.Ratio       `json:"left" range:"1 %..100 %" doc:"share of the water that blowing down leaves behind; nothing means all of it"`
	Parts      []Trapped         `json:"parts" doc:"what holds water, in the order in which the antifreeze passes; nothing means coils, then hoses"`
}

// A Trapped part holds water after the day.
type Trapped struct {
	ID     string       `json:"id" doc:"name of the part"`
	Volume units.Volume `json:"volume" need:"yes" range:"0.001 gal..500 gal" doc:"what it holds"`
	Left   units.Volume `json:"left" range:"0.0001 gal..500 gal" doc:"water that blowing down leaves in it; nothing means by the share"`
}

// deriveHeat fills what the heat of hoses and coils needs and nobody gave, each
// recorded as assumed with its band. Rigs without a heater ask for nothing.
func (m *Model) deriveHeat() {
	s := m.spec
	hot := map[string]bool{}  // pumps with a heater
	coil := map[string]bool{} // those of a known coil
	for i := range s.Heaters {
		h := &s.Heaters[i]
		at := Path("heaters[" + h.ID + "].")
		hot[h.Pump] = true
		if !coilGiven(h) || !h.Thermostat.Given() {
			continue
		}
		coil[h.Pump] = true
		if h.Steel == 0 {
			h.Steel = coilSteel(h, 1.54)
			m.assume(at+"steel", Band{coilSteel(h, 1.3).Quantity(), h.Steel.Quantity(), coilSteel(h, 1.8).Quantity(),
				"coil of pipe, outside 1.3 to 1.8 times the bore, 1.54 as 1/2 in schedule 80 (ASME B36.10M)"})
		}
		if h.Differential == 0 {
			h.Differential = 10 * units.FahrenheitDelta
			m.assume(at+"differential", Band{(4 * units.FahrenheitDelta).Quantity(), h.Differential.Quantity(), (25 * units.FahrenheitDelta).Quantity(), "bulb thermostats, common practice"})
		}
		if h.StopDelay == 0 {
			h.StopDelay = 1 * units.Second
			m.assume(at+"stop_delay", Band{(0.2 * units.Second).Quantity(), h.StopDelay.Quantity(), (3 * units.Second).Quantity(), "control and solenoid valve, common practice"})
		}
		if h.FireDelay == 0 {
			h.FireDelay = 5 * units.Second
			m.assume(at+"fire_delay", Band{(0.5 * units.Second).Quantity(), h.FireDelay.Quantity(), (15 * units.Second).Quantity(), "from no purge to a long one, common practice"})
		}
	}
	hose := func(at Path, pump string, h *Hose, wound bool) {
		if !hot[pump] {
			return
		}
		if h.OutsideDiameter == 0 && !wound {
			d := func(share float64, wall units.Length) units.Length { return units.Length(share)*h.Bore + wall }
			h.OutsideDiameter = d(1.3, 0.20*units.Inch)
			m.assume(at+".outside_diameter", Band{d(1.2, 0.15*units.Inch).Quantity(), h.OutsideDiameter.Quantity(), d(1.4, 0.27*units.Inch).Quantity(),
				"by the bore, between hoses of one and of two wire braids (SAE J517 100R1 and 100R2, from memory)"})
		}
		if h.WallConductivity == 0 {
			low, usual, high, why := units.ThermalConductivity(0.13), units.ThermalConductivity(0.19), units.ThermalConductivity(0.35), "rubber or thermoplastic, handbook values"
			switch h.Wall {
			case "rubber":
				high, why = 0.25, "rubber, handbook values"
			case "thermoplastic":
				low, usual, why = 0.20, 0.25, "polyamide and polyester, handbook values"
			}
			h.WallConductivity = usual
			m.assume(at+".wall_conductivity", Band{low.Quantity(), usual.Quantity(), high.Quantity(), why})
		}
		if h.Expansion == 0 && coil[pump] && h.WaveSpeed != 0 && h.MaximumPressure != 0 {
			// c² = 1/(ρ(κ + growth/p)), κ the compressibility of cold water
			const density, compressibility = 999.0, 4.6e-10
			if c := float64(h.WaveSpeed); 1/(density*c*c) > compressibility {
				h.Expansion = units.Ratio((1/(density*c*c) - compressibility) * float64(h.MaximumPressure))
				m.origins[at+".expansion"] = Origin{Why: "by its wave speed"}
			}
		}
		if h.Expansion == 0 && coil[pump] {
			b := Band{units.Ratio(0.01).Quantity(), units.Ratio(0.02).Quantity(), units.Ratio(0.06).Quantity(), "wire-braided hose at its working pressure, common practice"}
			h.Expansion = 0.02
			m.assume(at+".expansion", b)
		}
	}
	for i := range s.Trunks {
		hose(Path("trunks["+s.Trunks[i].ID+"].hose"), s.Trunks[i].Pump, &s.Trunks[i].Hose, false)
	}
	for i := range s.Lines {
		l := &s.Lines[i]
		hose(Path("lines["+l.ID+"].hose"), l.Pump, &l.Hose, l.Reel.Core != 0)
	}
}

func coilGiven(h *Heater) bool {
	return h.CoilBore != 0 && h.CoilLength != 0 && h.HelixDiameter != 0
}

// steelDensity of carbon steel, handbook value.
const steelDensity = 7850 * units.KilogramPerCubicMeter

// coilSteel is the mass of a coil whose outside is ratio times its bore.
func coilSteel(h *Heater, ratio float64) units.Mass {
	d := float64(h.CoilBore)
	return units.Mass(float64(steelDensity) * 0.7853981633974483 * d * d * (ratio*ratio - 1) * float64(h.CoilLength))
}

// openInWinter names the cold that nobody gave where an hour of the site freezes.
func openInWinter(s *Spec, add func(Path, string)) {
	if s.Winter.Coldest.Given() || len(s.Heaters) == 0 {
		return
	}
	for _, c := range s.Site.Conditions {
		if c.Air.Given() && c.Air.Kelvin() < 273.15 {
			add("winter.coldest", "hours until coil, hoses and pump head freeze, and what antifreeze holds")
			return
		}
	}
}

// senseOfHeat refuses what contradicts itself.
func senseOfHeat(s *Spec) []error {
	var errs []error
	conflict := func(path, value, want string) {
		errs = append(errs, &units.FieldError{Path: path, Value: value, Want: want, Err: units.ErrConflict})
	}
	missing := func(path, want string) {
		errs = append(errs, &units.FieldError{Path: path, Want: want, Err: units.ErrMissing})
	}
	thick := func(at string, h *Hose) {
		if h.OutsideDiameter != 0 && h.OutsideDiameter <= h.Bore*(1+1e-6) {
			conflict(at+".outside_diameter", exact(h.OutsideDiameter), "more than the bore, "+exact(h.Bore))
		}
	}
	for i := range s.Lines {
		thick("lines["+s.Lines[i].ID+"].hose", &s.Lines[i].Hose)
	}
	for i := range s.Trunks {
		thick("trunks["+s.Trunks[i].ID+"].hose", &s.Trunks[i].Hose)
	}
	for i := range s.Heaters {
		h := &s.Heaters[i]
		at := "heaters[" + h.ID + "]"
		if (h.OilNozzle != 0) != (h.OilPressure != 0) {
			missing(at+".oil_nozzle", "oil_nozzle and oil_pressure together")
		}
		r := &h.Stack
		if *r == (FlueReading{}) {
			continue
		}
		switch {
		case !r.Temperature.Given():
			missing(at+".stack.temperature", "the temperature of the flue gas, such as 430 °F")
		case !r.Air.Given():
			missing(at+".stack.air", "the temperature of the air the burner draws, such as 70 °F")
		case r.Temperature.Kelvin() < r.Air.Kelvin():
			conflict(at+".stack.temperature", exact(r.Temperature), "at least the air the burner draws, "+exact(r.Air))
		}
		if (r.Oxygen != 0) == (r.CarbonDioxide != 0) {
			missing(at+".stack.oxygen", "oxygen or carbon_dioxide, one of the two")
		} else if most, err := burnerFuel(h.Fuel).MostCarbonDioxide(); err == nil && r.CarbonDioxide > most {
			conflict(at+".stack.carbon_dioxide", exact(r.CarbonDioxide), "at most what the fuel gives, "+exact(most))
		}
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		if p.ThermalRelief.Flow != 0 && !p.ThermalRelief.Setting.Given() {
			missing("pumps["+p.ID+"].thermal_relief.setting", "the temperature at which it opens")
		}
	}
	w := &s.Winter
	if (w.Volume != 0) != (w.Strength != 0) {
		missing("winter.strength", "strength and volume of the antifreeze together")
	}
	for i := range w.Parts {
		if p := &w.Parts[i]; p.Left > p.Volume && p.Volume != 0 {
			conflict("winter.parts["+p.ID+"].left", exact(p.Left), "at most what the part holds, "+exact(p.Volume))
		}
	}
	return errs
}
